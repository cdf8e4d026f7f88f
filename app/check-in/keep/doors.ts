import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Problem } from '@/lib/domain/problem.ts'
import type { Receipt } from '@/lib/domain/submission.ts'
import type { Waiting } from './keep.ts'

/** How a door answered: with what was asked; not at all (try again); the link is over; or it refused. */
export type Answer<T> =
  | { kind: 'ok'; value: T }
  | { kind: 'unreachable' }
  | { kind: 'link-ended' }
  | { kind: 'refused'; problem: Problem }

/** A phone on a weak signal may hang for minutes; after this the same report is tried again. */
const PATIENCE_MS = 20_000

/** Trades the token of a personal link for a session, which the browser keeps as a cookie. */
export const exchangeLink = (token: string): Promise<Answer<unknown>> =>
  ask('/api/link', 'POST', {}, { token })

/** The same for a link that is over, with the code that the clinic read out on the phone. */
export const renewLink = (token: string, code: string): Promise<Answer<unknown>> =>
  ask('/api/link/renew', 'POST', {}, { token, code })

/** Ends the session of this phone. */
export const leave = (): Promise<Answer<unknown>> => ask('/api/link', 'DELETE')

export const readView = (): Promise<Answer<CheckInView>> => ask('/api/check-in', 'GET')

/**
 * The same key on each try, so that the clinic has one report however often it is sent; and whose report it is, so
 * that it is never taken in a session that has become another person's.
 */
export const sendReport = ({ key, person, body }: Waiting): Promise<Answer<Receipt>> =>
  ask(
    '/api/check-in',
    'POST',
    {
      'Idempotency-Key': key,
      'Check-In-Person': person,
      // The advice of the receipt comes in the language of the page.
      'Outflow-Language': document.documentElement.lang,
    },
    body,
  )

async function ask<T>(
  door: string,
  method: 'GET' | 'POST' | 'DELETE',
  headers: Record<string, string> = {},
  body?: unknown,
): Promise<Answer<T>> {
  let status: number
  let answer: unknown
  try {
    const response = await fetch(door, {
      method,
      headers: {
        Accept: 'application/json',
        ...(body ? { 'Content-Type': 'application/json' } : {}),
        ...headers,
      },
      ...(body ? { body: JSON.stringify(body) } : {}),
      cache: 'no-store',
      signal: AbortSignal.timeout(PATIENCE_MS),
    })
    status = response.status
    answer = response.status === 204 ? null : await response.json()
  } catch {
    return { kind: 'unreachable' }
  }
  if (status < 300) return { kind: 'ok', value: answer as T }
  // A server in trouble or busy: nothing was refused, so it is tried again.
  if (status >= 500 || status === 408 || status === 409 || status === 429) return { kind: 'unreachable' }
  if ([401, 403, 404, 410].includes(status)) return { kind: 'link-ended' }
  return { kind: 'refused', problem: answer as Problem }
}
