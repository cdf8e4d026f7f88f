import { randomUUID } from 'node:crypto'
import { isSecure } from '../access/base-url.ts'
import type { Problem } from '../domain/problem.ts'
import { dataHeaders } from './headers.ts'
import { TooMany } from './limits.ts'
import { errorForLog, log } from './log.ts'
import { problemOf, refusalOf, unforeseen } from './problem.ts'

/** A value as JSON, with the headers of all our answers. Null and nothing answer 204. */
export function answer(value: unknown, headers: HeadersInit = {}): Response {
  if (value === undefined || value === null)
    return withOurHeaders(new Response(null, { status: 204, headers }))
  return withOurHeaders(Response.json(value, { headers }))
}

/** The same for an answer that was made elsewhere. */
export function withOurHeaders(response: Response): Response {
  const headers = new Headers(response.headers)
  for (const [name, value] of Object.entries(dataHeaders(isSecure()))) headers.set(name, value)
  return new Response(response.body, { status: response.status, headers })
}

/** The one place where errors become problem documents. A refusal is an answer; anything else is logged, once. */
export function problemFor(error: unknown, where: { method: string; path: string }): Problem {
  const id = randomUUID()
  const refusal = refusalOf(error)
  if (refusal) return problemOf(refusal, id)
  log.error({ id, ...where, error: errorForLog(error) }, 'a request failed')
  return unforeseen(id)
}

/** The same as an answer. */
export function answerError(
  error: unknown,
  where: { method: string; path: string },
  headers: HeadersInit = {},
): Response {
  const refusal = refusalOf(error)
  const more = refusal instanceof TooMany ? { 'Retry-After': String(refusal.seconds) } : undefined
  return problemAnswer(problemFor(error, where), { ...Object.fromEntries(new Headers(headers)), ...more })
}

function problemAnswer(problem: Problem, headers: HeadersInit): Response {
  return withOurHeaders(
    new Response(JSON.stringify(problem), {
      status: problem.status,
      headers: { ...Object.fromEntries(new Headers(headers)), 'Content-Type': 'application/problem+json' },
    }),
  )
}
