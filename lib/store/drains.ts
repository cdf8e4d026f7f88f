import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { Appearance, DrainKind, Side } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { Bit, type Rows, rowOf, rowsOf, sql } from './rows.ts'

export const StoredDrain = z.object({
  id: z.string(),
  ordinal: z.number(),
  label: z.string(),
  kind: DrainKind,
  side: Side.nullable(),
  frenchSize: z.number().nullable(),
  lengthMarkCm: z.number().nullable(),
  placedAt: Instant,
  cappedAt: Instant.nullable(),
  onlyKidney: Bit,
  usualMlPerDay: z.number().nullable(),
  usualAppearance: Appearance.nullable(),
})
export type StoredDrain = z.infer<typeof StoredDrain>

/** A patient's drains, removed ones included, in the order of enrolment; what was recorded later than `until` is left out. */
export const drainsOf = (tx: Tx, patientId: string, until: string): Promise<Rows<StoredDrain>> =>
  rowsOf(
    tx,
    'drain',
    StoredDrain,
    sql`SELECT * FROM "Drain" WHERE "patientId" = ${patientId} AND "recordedAt" <= ${until} ORDER BY "ordinal", "id"`,
  )

export type Recorded = { clinicId: string; patientId: string; recordedAt: string; recordedBy: string }

export async function addDrain(tx: Tx, drain: StoredDrain, recorded: Recorded): Promise<void> {
  await tx.drain.create({ data: { ...drain, ...recorded } })
}

/** What of a drain is ever corrected; what it was before the caller keeps in a note. */
export type DrainFacts = Pick<StoredDrain, 'label' | 'side' | 'kind' | 'placedAt' | 'onlyKidney'>

export async function saveDrainFacts(
  tx: Tx,
  id: string,
  { label, side, kind, placedAt, onlyKidney }: DrainFacts,
): Promise<void> {
  await tx.drain.update({ where: { id }, data: { label, side, kind, placedAt, onlyKidney } })
}

const FirstSaid = z.object({
  id: z.string(),
  what: z.enum(['reading', 'flush', 'dressing', 'symptoms']),
  at: Instant,
})
export type FirstSaid = z.infer<typeof FirstSaid>

/**
 * The first that reports say of a drain from an instant on, however long ago; null where they say nothing. What is dated after its
 * receipt counts at its receipt. What a correction replaced is left out, but for symptoms: 'moved' and 'out' are not taken back.
 */
export const firstSaidOf = (
  tx: Tx,
  patientId: string,
  drainId: string,
  from: string,
): Promise<FirstSaid | null> => {
  const ofDrain = sql`p."patientId" = ${patientId} AND p."drainId" = ${drainId}`
  return rowOf(
    tx,
    'statement',
    FirstSaid,
    sql`WITH said("id", "what", "reportId", "at") AS (
          SELECT p."id", 'reading', p."reportId", p."at" FROM "Reading" p WHERE ${ofDrain}
          UNION ALL SELECT p."id", 'flush', p."reportId", p."at" FROM "Flush" p WHERE ${ofDrain}
          UNION ALL SELECT p."id", 'dressing', p."reportId", p."at" FROM "DressingChange" p WHERE ${ofDrain}
          UNION ALL SELECT p."id", 'symptoms', s."reportId", s."at" FROM "DrainSymptoms" p
            JOIN "Symptoms" s ON s."id" = p."symptomsId" WHERE ${ofDrain})
        SELECT said."id", said."what", min(said."at", r."receivedAt") AS "at" FROM said
        JOIN "Report" r ON r."id" = said."reportId"
        WHERE r."movedAt" IS NULL AND min(said."at", r."receivedAt") >= ${from}
          AND (said."what" = 'symptoms' OR r."id" NOT IN (SELECT "supersedesId" FROM "Report"
            WHERE "patientId" = ${patientId} AND "supersedesId" IS NOT NULL))
        ORDER BY 3, 1 LIMIT 1`,
  )
}
