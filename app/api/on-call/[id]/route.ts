import { callerAddress } from '@/lib/http/caller-address.ts'
import { guardGuess, spend } from '@/lib/http/limits.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { requireSameOrigin } from '@/lib/http/same-origin.ts'
import { onCall } from '@/lib/worklist/index.ts'

const idOf = (request: Request) => decodeURIComponent(new URL(request.url).pathname.split('/').at(-1) ?? '')

/** For the page of a message to the person on call: to look, to say 'I have it', to pass it on. The secret is the link's. */
export const POST = openRoute(async ({ request, body }) => {
  requireSameOrigin(request)
  const address = callerAddress(request.headers)
  await spend('on-call', address)
  const call = await body()
  return guardGuess('on-call-tries', address, () => onCall(idOf(request), call))
})
