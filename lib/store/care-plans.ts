import { z } from 'zod'
import { ClockTime } from '../domain/clock-time.ts'
import { Instant } from '../domain/instant.ts'
import { Overrides } from '../domain/record.ts'
import { Vessel } from '../domain/vessel.ts'
import { Course, Drainage } from '../domain/words.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { countedAt, json, newId, type Rows, rowsOf, sql } from './rows.ts'

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

/** A version with its history: who ordered it when, and who took it back. */
export const PlanVersion = CarePlan.extend({
  recordedAt: Instant,
  recordedBy: z.string(),
  withdrawnAt: Instant.nullable(),
  withdrawnBy: z.string().nullable(),
})
export type PlanVersion = z.infer<typeof PlanVersion>

/** Every version that was recorded and valid by `until`, each drain's newest last; what was taken back is among them. */
export const planVersionsOf = (tx: Tx, patientId: string, until: string): Promise<Rows<PlanVersion>> =>
  rowsOf(
    tx,
    'care plan',
    PlanVersion,
    sql`SELECT * FROM "CarePlan" WHERE "patientId" = ${patientId} AND "recordedAt" <= ${until} AND "validFrom" <= ${until}
        ORDER BY "drainId", "validFrom", "version"`,
  )

/** The versions that counted at `until`, each drain's version in force last. */
export async function plansOf(tx: Tx, patientId: string, until: string): Promise<Rows<PlanVersion>> {
  const { rows, unreadable } = await planVersionsOf(tx, patientId, until)
  return { rows: rows.filter(countedAt(until)), unreadable }
}

/** A version is not in force from now on; the one before it is again. */
export async function withdrawPlan(
  tx: Tx,
  { drainId, version }: Pick<CarePlan, 'drainId' | 'version'>,
  withdrawnAt: string,
  withdrawnBy: string,
): Promise<void> {
  await tx.carePlan.updateMany({
    where: { drainId, version, withdrawnAt: null },
    data: { withdrawnAt, withdrawnBy },
  })
}

/** Adds a version. A version is never changed: what was ordered before stays as it was. */
export async function addPlan(tx: Tx, plan: CarePlan, recorded: Recorded): Promise<void> {
  const overrides = plan.overrides ? JSON.stringify(plan.overrides) : null
  const flushAt = plan.flushAt ? JSON.stringify(plan.flushAt) : null
  await tx.carePlan.create({ data: { id: newId(), ...plan, overrides, flushAt, ...recorded } })
}
