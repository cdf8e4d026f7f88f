import { Refusal } from '../domain/problem.ts'

/** The cookie of a check-in session: this host only, out of reach for scripts, never sent by another site's page. */
const NAME = '__Host-check-in'

export const checkInCookie = (session: string, expiresAt: string): string =>
  `${NAME}=${session}; Path=/; Secure; HttpOnly; SameSite=Strict; Expires=${new Date(expiresAt).toUTCString()}`

/** Takes the cookie back from a browser. */
export const noCheckInCookie = (): string => `${NAME}=; Path=/; Secure; HttpOnly; SameSite=Strict; Max-Age=0`

/** The session that a request's cookie names, or null. */
export function sessionInCookie(headers: Headers): string | null {
  const cookies = (headers.get('cookie') ?? '').split(';').map((cookie) => cookie.trim())
  return cookies.find((cookie) => cookie.startsWith(`${NAME}=`))?.slice(NAME.length + 1) || null
}

/**
 * The same, where there must be one.
 * @throws Refusal link-not-valid
 */
export function checkInSessionOf(headers: Headers): string {
  const session = sessionInCookie(headers)
  if (!session) throw new Refusal('link-not-valid', 'Open your personal link again.')
  return session
}
