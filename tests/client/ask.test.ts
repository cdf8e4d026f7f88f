import { afterEach, describe, expect, it, vi } from 'vitest'
import { z } from 'zod'
import { ask, isRefusal, RefusedError, UnreachableError } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { faultFrom } from '@/lib/client/use-send.ts'

const answers = (status: number, body: string) => {
  const fetched = vi.fn(async (_door: string, _init: RequestInit) => new Response(body, { status }))
  vi.stubGlobal('fetch', fetched)
  return fetched
}
const Answer = z.strictObject({ n: z.number() })
afterEach(() => vi.unstubAllGlobals())

describe('asking a door', () => {
  it('reads the answer by its schema', async () => {
    answers(200, '{"n":1}')
    expect(await ask('/api/x', Answer)).toEqual({ n: 1 })
  })
  it('sends body and key as the door wants them', async () => {
    const fetched = answers(200, '{"n":1}')
    await ask('/api/x', Answer, { method: 'POST', body: { a: 1 }, key: 'k' })
    expect(fetched.mock.calls[0]?.[1]).toMatchObject({
      method: 'POST',
      body: '{"a":1}',
      headers: { 'Content-Type': 'application/json', 'Idempotency-Key': 'k' },
    })
  })
  it('a refusal carries its problem document', async () => {
    answers(
      409,
      '{"type":"urn:outflow-round:problem:taken","title":"Somebody else has this row","status":409,"detail":"Taken by J. Sund."}',
    )
    const error = await ask('/api/x', Answer).catch((failed: unknown) => failed)
    expect(isRefusal(error, 'taken')).toBe(true)
    expect(isRefusal(error, 'conflict')).toBe(false)
    expect(faultFrom(error)).toEqual({ text: 'Taken by J. Sund.', fields: [], stored: false })
  })
  it('faults are told by field', async () => {
    answers(
      400,
      '{"type":"urn:x:invalid-input","title":"t","status":400,"faults":[{"field":"agreed","message":"accepted: at least one"}]}',
    )
    const error = await ask('/api/x', Answer).catch((failed: unknown) => failed)
    expect(faultFrom(error).fields).toEqual([{ field: 'agreed', message: 'accepted: at least one' }])
  })
  it('a key that came with another body means that the first is stored', async () => {
    answers(422, '{"type":"urn:outflow-round:problem:key-reused","title":"t","status":422}')
    expect(faultFrom(await ask('/api/x', Answer).catch((failed: unknown) => failed)).stored).toBe(true)
  })
  it('an answer of another shape, or none of ours, is refused in words', async () => {
    answers(200, '{"n":"one"}')
    await expect(ask('/api/x', Answer)).rejects.toBeInstanceOf(RefusedError)
    answers(502, '<html>')
    await expect(ask('/api/x', Answer)).rejects.toBeInstanceOf(UnreachableError)
    answers(500, '"?"')
    await expect(ask('/api/x', Answer)).rejects.toThrow('It answered 500.')
  })
  it('no answer is told from a refusal', async () => {
    vi.stubGlobal('fetch', async () => Promise.reject(new TypeError('network')))
    await expect(ask('/api/x', Answer)).rejects.toBeInstanceOf(UnreachableError)
  })
  it('an empty answer is null', async () => {
    vi.stubGlobal('fetch', async () => new Response(null, { status: 204 }))
    expect(await ask('/api/x', z.null(), { method: 'DELETE' })).toBeNull()
  })
})

describe('a key', () => {
  const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/
  it('is a UUID of its own each time, on a page without a secure origin too', () => {
    expect(new Set(Array.from({ length: 50 }, newKey)).size).toBe(50)
    const { getRandomValues } = crypto
    vi.stubGlobal('crypto', { getRandomValues: getRandomValues.bind(crypto) })
    for (let i = 0; i < 50; i++) expect(newKey()).toMatch(uuid)
  })
})
