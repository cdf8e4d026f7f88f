import { z } from 'zod'
import { answer } from '@/lib/http/answer.ts'
import { callerAddress } from '@/lib/http/caller-address.ts'
import { checkInCookie } from '@/lib/http/check-in-cookie.ts'
import { guardGuess, spend } from '@/lib/http/limits.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { requireSameOrigin } from '@/lib/http/same-origin.ts'
import { renewByCode } from '@/lib/intake/index.ts'

const Renewal = z.strictObject({
  token: z.string().max(200, 'accepted: the token of a personal link'),
  code: z.string().max(40, 'accepted: the 8 digits that your clinic reads out'),
})

/** Renews a link that has ended, or soon will, with a code that the clinic read out on the phone, and opens a session. */
export const POST = openRoute(async ({ request, body }) => {
  requireSameOrigin(request)
  const address = callerAddress(request.headers)
  await spend('open-link', address)
  const wanted = Renewal.parse(await body())
  const { session, expiresAt } = await guardGuess('link-tries', address, () => renewByCode(wanted))
  return answer({ expiresAt }, { 'Set-Cookie': checkInCookie(session, expiresAt) })
})
