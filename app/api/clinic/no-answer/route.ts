import { staffRoute } from '@/lib/http/staff-route.ts'
import { readNoAnswer, saveNoAnswerRules } from '@/lib/worklist/index.ts'

/** What follows attempts without an answer. */
export const GET = staffRoute('edit-clinic', ({ staff }) => readNoAnswer(staff))

export const POST = staffRoute('edit-clinic', async ({ staff, body, key }) =>
  saveNoAnswerRules(staff, await body(), key()),
)
