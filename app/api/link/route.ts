import { z } from 'zod'
import { answer } from '@/lib/http/answer.ts'
import { callerAddress } from '@/lib/http/caller-address.ts'
import {
  checkInCookie,
  checkInSessionOf,
  noCheckInCookie,
  sessionInCookie,
} from '@/lib/http/check-in-cookie.ts'
import { guardGuess, spend } from '@/lib/http/limits.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { requireSameOrigin } from '@/lib/http/same-origin.ts'
import { exchangeLink, forgetSession } from '@/lib/intake/index.ts'

const Token = z.strictObject({ token: z.string().max(200, 'accepted: the token of a personal link') })

/** Trades the token of a personal link for a session in a cookie, which lives as long as the link. */
export const POST = openRoute(async ({ request, body }) => {
  requireSameOrigin(request)
  const address = callerAddress(request.headers)
  await spend('open-link', address)
  const { token } = Token.parse(await body())
  const had = sessionInCookie(request.headers)
  const { session, expiresAt } = await guardGuess('link-tries', address, () =>
    exchangeLink(token, undefined, had),
  )
  return answer({ expiresAt }, { 'Set-Cookie': checkInCookie(session, expiresAt) })
})

/** Forgets the session of this phone. The link itself stays. */
export const DELETE = openRoute(async ({ request }) => {
  requireSameOrigin(request)
  await forgetSession(checkInSessionOf(request.headers))
  return answer({ forgotten: true }, { 'Set-Cookie': noCheckInCookie() })
})
