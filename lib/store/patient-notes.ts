import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { PatientNote } from '../domain/patient-note.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { type Rows, rowOf, rowsOf, sql } from './rows.ts'

const StoredNote = z.object({
  id: z.string(),
  at: Instant,
  by: z.string(),
  byId: z.string(),
  text: z.string(),
  undoneAt: Instant.nullable(),
  undoneBy: z.string().nullable(),
})

const columns = sql`n."id", n."recordedAt" AS "at", COALESCE(s."name", n."recordedBy") AS "by",
    n."recordedBy" AS "byId", n."text", n."undoneAt", COALESCE(u."name", n."undoneBy") AS "undoneBy"
  FROM "PatientNote" n LEFT JOIN "Staff" s ON s."id" = n."recordedBy" LEFT JOIN "Staff" u ON u."id" = n."undoneBy"`

/** The latest notes of a patient, the latest first; those that were taken back among them. */
export const notesOf = (tx: Tx, patientId: string, most: number): Promise<Rows<PatientNote>> =>
  rowsOf(
    tx,
    'note',
    StoredNote,
    sql`SELECT ${columns} WHERE n."patientId" = ${patientId} ORDER BY n."recordedAt" DESC, n."id" LIMIT ${most}`,
  )

export const noteById = (tx: Tx, patientId: string, id: string): Promise<PatientNote | null> =>
  rowOf(tx, 'note', StoredNote, sql`SELECT ${columns} WHERE n."id" = ${id} AND n."patientId" = ${patientId}`)

export async function addNote(
  tx: Tx,
  note: Pick<PatientNote, 'id' | 'text'>,
  recorded: Recorded,
): Promise<void> {
  await tx.patientNote.create({ data: { ...note, ...recorded } })
}

/** Takes a note back; its words stay. Says whether this was what took it back. */
export async function markNoteUndone(tx: Tx, id: string, at: string, by: string): Promise<boolean> {
  const { count } = await tx.patientNote.updateMany({
    where: { id, undoneAt: null },
    data: { undoneAt: at, undoneBy: by },
  })
  return count === 1
}
