import { z } from 'zod'
import { ClockTime } from '../domain/clock-time.ts'
import { Instant } from '../domain/instant.ts'
import { Overrides } from '../domain/record.ts'
import { Vessel } from '../domain/vessel.ts'
import { Course, Drainage } from '../domain/words.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { json, newId, type Rows, rowsOf, sql } from './rows.ts'

/** One threshold of one drain, set by a person for a reason. */
export const Override = z.strictObject({ value: z.number(), by: z.string(), at: Instant, why: z.string() })
export type Override = z.infer<typeof Override>
export const OverrideLog = z.partialRecord(Overrides.keyof(), Override)
export type OverrideLog = z.infer<typeof OverrideLog>

export const CarePlan = z.object({
  drainId: z.string(),
  version: z.number(),
  validFrom: Instant,
  why: z.string().nullable(),
  course: Course.nullable(),
  drainage: Drainage.nullable(),
  bagCapacityMl: z.number().nullable(),
  markMl: z.number().nullable(),
  vessel: Vessel.nullable(),
  logEveryHours: z.number(),
  dressingEveryHours: z.number(),
  flushVolumeMl: z.number().nullable(),
  flushEveryHours: z.number().nullable(),
  exchangeEveryDays: z.number().nullable(),
  flushAt: json(z.array(ClockTime)).nullable(),
  dressingType: z.string().nullable(),
  removalPlan: z.string().nullable(),
  overrides: json(OverrideLog).nullable(),
})
export type CarePlan = z.infer<typeof CarePlan>

/** Every version that was recorded and valid by `until`, each drain's version in force last. */
export const plansOf = (tx: Tx, patientId: string, until: string): Promise<Rows<CarePlan>> =>
  rowsOf(
    tx,
    'care plan',
    CarePlan,
    sql`SELECT * FROM "CarePlan" WHERE "patientId" = ${patientId} AND "recordedAt" <= ${until} AND "validFrom" <= ${until}
        ORDER BY "drainId", "validFrom", "version"`,
  )

/** Adds a version. A version is never changed: what was ordered before stays as it was. */
export async function addPlan(tx: Tx, plan: CarePlan, recorded: Recorded): Promise<void> {
  const overrides = plan.overrides ? JSON.stringify(plan.overrides) : null
  const flushAt = plan.flushAt ? JSON.stringify(plan.flushAt) : null
  await tx.carePlan.create({ data: { id: newId(), ...plan, overrides, flushAt, ...recorded } })
}
