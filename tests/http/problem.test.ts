import { describe, expect, it, vi } from 'vitest'
import { z } from 'zod'
import { Problem, ProblemKind, Refusal } from '../../lib/domain/problem.ts'
import { answer, answerError } from '../../lib/http/answer.ts'
import { TooMany } from '../../lib/http/limits.ts'
import { errorForLog, log } from '../../lib/http/log.ts'

const where = { method: 'POST', path: '/api/reports' }

describe('a refusal', () => {
  it.each(ProblemKind.options)('%s is a problem document with a status of its own', async (kind) => {
    const response = answerError(
      new Refusal(kind, 'why', [{ field: 'a', value: 1, message: 'accepted: 2' }]),
      where,
    )
    const problem = Problem.parse(await response.json())
    expect(response.headers.get('content-type')).toBe('application/problem+json')
    expect(problem.status).toBe(response.status)
    expect(response.status).toBeGreaterThanOrEqual(400)
    expect(problem).toMatchObject({
      type: `urn:outflow-round:problem:${kind}`,
      detail: 'why',
      instance: expect.stringMatching(/^urn:uuid:/),
      faults: [{ field: 'a', value: 1, message: 'accepted: 2' }],
    })
  })

  it('has the statuses that clients rely on', () => {
    const status = (kind: ProblemKind) => answerError(new Refusal(kind, ''), where).status
    expect(
      ['key-missing', 'key-reused', 'too-large', 'not-signed-in', 'not-allowed', 'taken'].map((kind) =>
        status(kind as ProblemKind),
      ),
    ).toEqual([400, 422, 413, 401, 403, 409])
  })

  it('of a schema names the field and what is accepted', async () => {
    const { error } = z
      .strictObject({ at: z.iso.datetime('accepted: an instant') })
      .safeParse({ at: 'noon', x: 1 })
    const { faults } = Problem.parse(await answerError(error, where).json())
    expect(faults).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ field: 'at' }),
        expect.objectContaining({ field: 'x' }),
      ]),
    )
  })

  it('for too many says when to come back', () => {
    expect(answerError(new TooMany(42), where).headers.get('retry-after')).toBe('42')
  })
})

describe('an error that nobody foresaw', () => {
  it('is logged once and told to nobody', async () => {
    const logged = vi.spyOn(log, 'error').mockImplementation(() => undefined)
    const response = answerError(new Error('password is hunter2'), where)
    const text = await response.text()
    expect([response.status, text.includes('hunter2')]).toEqual([500, false])
    expect(logged).toHaveBeenCalledTimes(1)
    expect(logged).toHaveBeenCalledWith(
      expect.objectContaining({ id: JSON.parse(text).instance.replace('urn:uuid:', '') }),
      expect.any(String),
    )
  })

  it('of the store is logged without the values of its statement', () => {
    const error = Object.assign(
      new Error(
        'Invalid `tx.patient.create()` invocation:\n{ name: "Ada Invented" }\n\nUnique constraint failed',
      ),
      { name: 'PrismaClientKnownRequestError', code: 'P2002' },
    )
    expect(errorForLog(error)).toMatchObject({ code: 'P2002', message: 'Unique constraint failed' })
    expect(JSON.stringify(errorForLog(error))).not.toContain('Ada')
  })
})

describe('an answer', () => {
  it('is kept nowhere and can do nothing when it is shown', () => {
    const { headers, status } = answer({ a: 1 })
    expect(status).toBe(200)
    expect(Object.fromEntries(headers)).toMatchObject({
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'x-robots-tag': 'noindex, nofollow',
      'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
    })
    expect(headers.has('strict-transport-security')).toBe(false)
  })

  it('insists on TLS where the server is reached by it', () => {
    vi.stubEnv('OUTFLOW_URL', 'https://round.example')
    expect(answer({}).headers.get('strict-transport-security')).toContain('max-age=63072000')
  })

  it('of nothing is 204', () => {
    expect(answer(null).status).toBe(204)
  })
})
