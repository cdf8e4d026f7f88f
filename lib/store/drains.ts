import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { Appearance, DrainKind, Side } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { Bit, type Rows, rowsOf, sql } from './rows.ts'

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
export type DrainFacts = Pick<StoredDrain, 'label' | 'side' | 'kind' | 'onlyKidney'>

export async function saveDrainFacts(
  tx: Tx,
  id: string,
  { label, side, kind, onlyKidney }: DrainFacts,
): Promise<void> {
  await tx.drain.update({ where: { id }, data: { label, side, kind, onlyKidney } })
}
