import { z } from 'zod'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { overrideRow, releaseRow, renewRow, takeRow } from '@/lib/worklist/index.ts'

type OfPatient = { id: string }
const Take = z.strictObject({ reason: z.string().optional() })

/** Takes the row; with a reason, from whoever has it. */
export const POST = staffRoute<OfPatient>('take-row', async ({ staff, params, body, key, permit }) => {
  key() // asked for as at every door that stores; a repeat takes one's own row again, which changes nothing
  const { reason } = Take.parse(await body())
  if (reason === undefined) return takeRow(staff, params.id)
  await permit('override-take')
  return overrideRow(staff, params.id, reason)
})

/** Keeps one's own row for longer. */
export const PUT = staffRoute<OfPatient>('take-row', ({ staff, params }) => renewRow(staff, params.id))

/** Gives one's own row back. */
export const DELETE = staffRoute<OfPatient>('take-row', ({ staff, params }) => releaseRow(staff, params.id))
