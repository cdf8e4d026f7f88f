import { z } from 'zod'
import { answer } from '@/lib/http/answer.ts'
import { callerAddress } from '@/lib/http/caller-address.ts'
import { checkInCookie } from '@/lib/http/check-in-cookie.ts'
import { spend } from '@/lib/http/limits.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { requireSameOrigin } from '@/lib/http/same-origin.ts'
import { exchangeLink } from '@/lib/intake/index.ts'

const Token = z.strictObject({ token: z.string().max(200, 'accepted: the token of a personal link') })

/** Trades the token of a personal link for a short session in a cookie. */
export const POST = openRoute(async ({ request, body }) => {
  requireSameOrigin(request)
  await spend('open-link', callerAddress(request.headers))
  const { token } = Token.parse(await body())
  const { session, expiresAt } = await exchangeLink(token)
  return answer({ expiresAt }, { 'Set-Cookie': checkInCookie(session, expiresAt) })
})
