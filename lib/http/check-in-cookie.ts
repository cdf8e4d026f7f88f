import { Refusal } from '../domain/problem.ts'

/** The cookie of a check-in session: this host only, out of reach for scripts, never sent by another site's page. */
const NAME = '__Host-check-in'

export const checkInCookie = (session: string, expiresAt: string): string =>
  `${NAME}=${session}; Path=/; Secure; HttpOnly; SameSite=Strict; Expires=${new Date(expiresAt).toUTCString()}`

/**
 * The session that a request's cookie names.
 * @throws Refusal link-not-valid
 */
export function checkInSessionOf(headers: Headers): string {
  const cookies = (headers.get('cookie') ?? '').split(';').map((cookie) => cookie.trim())
  const session = cookies.find((cookie) => cookie.startsWith(`${NAME}=`))?.slice(NAME.length + 1)
  if (!session) throw new Refusal('link-not-valid', 'Open your personal link again.')
  return session
}
