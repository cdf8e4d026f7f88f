import { Refusal } from '@/lib/domain/problem.ts'
import { checkInSessionOf } from '@/lib/http/check-in-cookie.ts'
import { spend } from '@/lib/http/limits.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { pageLanguage } from '@/lib/http/page-language.ts'
import { requireSameOrigin } from '@/lib/http/same-origin.ts'
import { checkInSession, checkInView, receiveReport } from '@/lib/intake/index.ts'

/** What the person of this session reports on. */
export const GET = openRoute(({ request }) => checkInView(checkInSessionOf(request.headers)))

/** Their report. */
export const POST = openRoute(async ({ request, body, key }) => {
  requireSameOrigin(request)
  const link = await checkInSession(checkInSessionOf(request.headers))
  const { clinicId, patientId } = link
  // A phone may hold two people's reports: one is never taken in a session that has become the other's.
  const meant = request.headers.get('check-in-person')
  if (meant !== null && meant !== patientId)
    throw new Refusal('link-not-valid', 'This session is of another link. Open your personal link again.')
  await spend('check-in', patientId)
  return receiveReport({
    clinicId,
    patientId,
    door: 'check-in',
    source: patientId,
    by: null,
    link,
    language: pageLanguage(request.headers),
    key: key(),
    body: await body(),
  })
})
