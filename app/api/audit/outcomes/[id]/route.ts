import { answerInquiry } from '@/lib/audit/outcomes/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** The answer to what became of a patient. */
export const POST = staffRoute<{ id: string }>('record-outside-event', async ({ staff, params, body, key }) =>
  answerInquiry(staff, params.id, await body(), key()),
)
