import { staffRoute } from '@/lib/http/staff-route.ts'
import { readAdviceTexts, saveAdviceText } from '@/lib/intake/index.ts'

/** The texts that patients read, with their versions. */
export const GET = staffRoute('edit-clinic', ({ staff }) => readAdviceTexts(staff))

/** A further version of one; patients read it once it is approved. */
export const POST = staffRoute('edit-clinic', async ({ staff, body, key }) =>
  saveAdviceText(staff, await body(), key()),
)
