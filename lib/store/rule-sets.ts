import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { type Rows, rowOf, rowsOf, sql } from './rows.ts'

/** The body of the clinic's rule set in force at an instant, as it was stored; null where it has none of its own. */
export async function ruleSetBodyAt(tx: Tx, clinicId: string, at: string): Promise<string | null> {
  const found = await rowOf(
    tx,
    'rule set',
    z.object({ body: z.string() }),
    sql`SELECT "body" FROM "RuleSet" WHERE "clinicId" = ${clinicId} AND "inForceFrom" <= ${at} AND "recordedAt" <= ${at}
        ORDER BY "inForceFrom" DESC, "recordedAt" DESC LIMIT 1`,
  )
  return found?.body ?? null
}

/** When the next rule set that waits for its moment comes into force; null where none does. */
export async function nextRuleSetFrom(tx: Tx, clinicId: string, after: string): Promise<string | null> {
  const found = await rowOf(
    tx,
    'rule set',
    z.object({ at: Instant.nullable() }),
    sql`SELECT MIN("inForceFrom") AS "at" FROM "RuleSet" WHERE "clinicId" = ${clinicId} AND "inForceFrom" > ${after}`,
  )
  return found?.at ?? null
}

/** One coming into force. `version` is the row's own name: a set that was put back keeps its version in its body. */
export const StoredRuleSet = z.object({
  id: z.string(),
  clinicId: z.string(),
  version: z.string(),
  body: z.string(),
  inForceFrom: Instant,
  recordedAt: Instant,
  recordedBy: z.string(),
  why: z.string().nullable(),
  draftId: z.string().nullable(),
})
export type StoredRuleSet = z.infer<typeof StoredRuleSet>

/** Every rule set that a clinic has set, in the order in which they come into force. */
export const ruleSetsOf = (tx: Tx, clinicId: string): Promise<Rows<StoredRuleSet>> =>
  rowsOf(
    tx,
    'rule set',
    StoredRuleSet,
    sql`SELECT * FROM "RuleSet" WHERE "clinicId" = ${clinicId} ORDER BY "inForceFrom", "recordedAt"`,
  )

/** Adds a rule set. One that was in force is never changed: flags name it. */
export async function addRuleSet(
  tx: Tx,
  ruleSet: StoredRuleSet & Prisma.RuleSetUncheckedCreateInput,
): Promise<void> {
  await tx.ruleSet.create({ data: ruleSet })
}

/**
 * Makes every patient in follow-up due for the sweep at an instant, unless they are due before. One statement: the sweep
 * takes them up a few at a time.
 * @returns how many are due then that would have been later
 */
export const markDueAt = (tx: Tx, clinicId: string, at: string): Promise<number> =>
  tx.$executeRaw`UPDATE "PatientState" SET "nextCheckAt" = ${at}
    WHERE "clinicId" = ${clinicId} AND ("nextCheckAt" IS NULL OR "nextCheckAt" > ${at})
      AND EXISTS (SELECT 1 FROM "Patient" p WHERE p."id" = "PatientState"."patientId" AND p."followUpEndedAt" IS NULL)`

const OwnThresholds = z.object({
  id: z.string(),
  patientId: z.string(),
  name: z.string(),
  birthDate: z.string(),
  recordNumber: z.string(),
  drain: z.string(),
  /** JSON: per threshold the value, who set it, when and why. */
  overrides: z.string(),
})
export type OwnThresholds = z.infer<typeof OwnThresholds>

/** The drains of patients in follow-up whose orders in force hold thresholds of their own. Drains that are out are left out. */
export const ownThresholdsOf = (tx: Tx, clinicId: string, at: string): Promise<Rows<OwnThresholds>> =>
  rowsOf(
    tx,
    'order',
    OwnThresholds,
    sql`SELECT c."id", c."patientId", c."overrides", p."name", p."birthDate", p."recordNumber", d."label" AS "drain"
        FROM "CarePlan" c JOIN "Patient" p ON p."id" = c."patientId" JOIN "Drain" d ON d."id" = c."drainId"
        WHERE p."clinicId" = ${clinicId} AND p."followUpEndedAt" IS NULL AND c."overrides" IS NOT NULL
          AND c."id" = (SELECT n."id" FROM "CarePlan" n WHERE n."drainId" = c."drainId" AND n."withdrawnAt" IS NULL
            AND n."validFrom" <= ${at} AND n."recordedAt" <= ${at} ORDER BY n."validFrom" DESC, n."version" DESC LIMIT 1)
          AND NOT EXISTS (SELECT 1 FROM "StaffEvent" e WHERE e."patientId" = c."patientId" AND e."drainId" = c."drainId"
            AND e."type" = 'removed' AND e."withdrawnAt" IS NULL AND e."at" <= ${at}
            AND NOT EXISTS (SELECT 1 FROM "StaffEvent" t WHERE t."patientId" = e."patientId" AND t."drainId" = e."drainId"
              AND t."type" IN ('placed', 'exchanged', 'replaced') AND t."withdrawnAt" IS NULL AND t."at" > e."at" AND t."at" <= ${at}))
        ORDER BY p."name", p."id", d."ordinal"`,
  )
