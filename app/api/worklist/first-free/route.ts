import { z } from 'zod'
import { now } from '@/lib/clock.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { takeFirstFree } from '@/lib/worklist/index.ts'

const Wish = z.strictObject({ but: z.string().nullish() })

/** Takes the first row that nobody has, other than that of the patient whose page is open. */
export const POST = staffRoute('take-row', async ({ staff, body, key }) =>
  takeFirstFree(staff, key(), now(), Wish.parse(await body()).but ?? null),
)
