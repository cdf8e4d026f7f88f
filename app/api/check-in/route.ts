import { checkInSessionOf } from '@/lib/http/check-in-cookie.ts'
import { spend } from '@/lib/http/limits.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { requireSameOrigin } from '@/lib/http/same-origin.ts'
import { checkInSession, checkInView, receiveReport } from '@/lib/intake/index.ts'

/** What the person of this session reports on. */
export const GET = openRoute(({ request }) => checkInView(checkInSessionOf(request.headers)))

/** Their report. */
export const POST = openRoute(async ({ request, body, key }) => {
  requireSameOrigin(request)
  const { clinicId, patientId } = await checkInSession(checkInSessionOf(request.headers))
  await spend('check-in', patientId)
  return receiveReport({
    clinicId,
    patientId,
    door: 'check-in',
    source: patientId,
    by: null,
    key: key(),
    body: await body(),
  })
})
