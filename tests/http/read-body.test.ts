import { describe, expect, it } from 'vitest'
import { readJson } from '../../lib/http/read-body.ts'

const LIMIT = 64 * 1024
const json = { 'content-type': 'application/json' }
const post = (body: BodyInit, headers: Record<string, string> = json) =>
  new Request('http://127.0.0.1/', { method: 'POST', body, headers, duplex: 'half' } as RequestInit)
const kindOf = (request: Request) =>
  readJson(request).then(
    () => 'taken',
    (error) => error.kind,
  )
const filled = (bytes: number) => `"${'x'.repeat(bytes - 2)}"`

describe('a body', () => {
  it('is read as JSON', async () => {
    expect(await readJson(post('{"a":[1,"ü"]}'))).toEqual({ a: [1, 'ü'] })
    expect(await readJson(post('1', { 'content-type': 'application/json; charset=utf-8' }))).toBe(1)
  })

  it('may have exactly 64 KiB and no byte more', async () => {
    expect(await kindOf(post(filled(LIMIT)))).toBe('taken')
    expect(await kindOf(post(filled(LIMIT + 1)))).toBe('too-large')
    expect(await kindOf(post(`"${'ü'.repeat(LIMIT / 2)}"`))).toBe('too-large')
  })

  it('without an end is let go at the limit, not read', async () => {
    let pulled = 0
    const endless = new ReadableStream({
      pull(controller) {
        pulled += 1
        controller.enqueue(new Uint8Array(4096).fill(32))
      },
    })
    expect(await kindOf(post(endless))).toBe('too-large')
    expect(pulled).toBeLessThan(25)
  })

  it('is refused unread where its own length says too much', async () => {
    expect(await kindOf(post('{}', { ...json, 'content-length': String(LIMIT + 1) }))).toBe('too-large')
  })

  it.each([
    ['is none', '', json],
    ['is no JSON', '{a:1}', json],
    ['is cut off', '{"a":', json],
    ['is no UTF-8', new Uint8Array([0x22, 0xff, 0x22]), json],
    ['says that it is a form', '{}', { 'content-type': 'application/x-www-form-urlencoded' }],
    ['says that it is text', '{}', { 'content-type': 'text/plain' }],
    ['says nothing', new Uint8Array([123, 125]), {}],
  ])('that %s is refused', async (_, body, headers) => {
    expect(await kindOf(post(body as BodyInit, headers as Record<string, string>))).toBe('invalid-input')
  })
})
