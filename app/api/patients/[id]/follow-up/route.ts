import { staffRoute } from '@/lib/http/staff-route.ts'
import { endFollowUp, endsWithDrain, resumeFollowUp } from '@/lib/intake/index.ts'

type OfPatient = { id: string }

/** Ends follow-up. With a drain in place that is a physician's to do. */
export const POST = staffRoute<OfPatient>('end-follow-up', async ({ staff, params, body, key, permit }) => {
  const wanted = await body()
  if (await endsWithDrain(staff, params.id, wanted)) await permit('end-with-drain')
  return endFollowUp(staff, params.id, wanted, key())
})

/** Takes the patient back. After a death the first call asks for it, and another person's confirms. */
export const DELETE = staffRoute<OfPatient>('end-follow-up', async ({ staff, params, body, key }) =>
  resumeFollowUp(staff, params.id, await body(), key()),
)
