import { z } from 'zod'
import { Instant } from './instant.ts'

/** Longest note, in characters. */
export const PATIENT_NOTE_MAX = 4000
/** How long whoever wrote a note may take it back. */
export const NOTE_UNDO_SECONDS = 60

/** A note without a call, as its writer sends it: signed by who is signed in. */
export const NewPatientNote = z.strictObject({
  text: z
    .string({ error: 'accepted: the words of the note' })
    .trim()
    .min(1, 'accepted: the words of the note')
    .max(PATIENT_NOTE_MAX, `accepted: at most ${PATIENT_NOTE_MAX} characters`),
})
export type NewPatientNote = z.infer<typeof NewPatientNote>

/** A note as it is kept. One that was taken back stays, and is shown struck out. */
export const PatientNote = z.strictObject({
  id: z.string(),
  at: Instant,
  by: z.string(),
  byId: z.string(),
  text: z.string(),
  undoneAt: Instant.nullable(),
  undoneBy: z.string().nullable(),
})
export type PatientNote = z.infer<typeof PatientNote>

export const NoteWritten = z.strictObject({ note: z.string(), undoUntil: Instant })
export type NoteWritten = z.infer<typeof NoteWritten>
