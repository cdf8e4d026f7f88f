import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { isCorrectionNote, OF_A_CORRECTION } from '../domain/drain-change.ts'
import { NewPatientNote, NOTE_UNDO_SECONDS, type NoteWritten } from '../domain/patient-note.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { type Tx, write } from '../store/index.ts'
import { addNote, markNoteUndone, noteById } from '../store/patient-notes.ts'
import { newId, stored } from '../store/rows.ts'
import { isOfClinic } from './patient-of.ts'

/**
 * Writes a note without a call, signed by who is signed in. It moves no flag: only a call does.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function writeNote(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<NoteWritten> {
  const { clinicId } = staff
  const at = stored(now)
  const request = { clinicId, source: staff.id, key, body: { note: body, patientId } }
  const written = await write((tx) =>
    answerOnce(tx, request, at, async () => {
      const parsed = NewPatientNote.safeParse(body)
      if (!parsed.success)
        throw new Refusal('invalid-input', 'The note is not as it is accepted.', faultsOf(parsed.error, body))
      await isOfClinic(tx, clinicId, patientId)
      const id = newId()
      await addNote(
        tx,
        { id, text: parsed.data.text },
        { clinicId, patientId, recordedAt: at, recordedBy: staff.id },
      )
      await note(tx, staff, patientId, `wrote the note ${id}`, at)
      return { note: id, undoUntil: stored(new Date(now.getTime() + NOTE_UNDO_SECONDS * 1000)) }
    }),
  )
  tell(clinicId, { patientId, kind: 'patient' })
  return written
}

/**
 * Takes a note back within its minute; it stays readable as one that was taken back. Whoever presses twice has taken
 * it back once.
 * @throws Refusal not-found, not-allowed (somebody else's), conflict (the minute is over; it came with a correction)
 */
export async function takeBackNote(
  staff: StaffMember,
  patientId: string,
  noteId: string,
  now: Date = clock(),
): Promise<{ note: string; undoneAt: string }> {
  const at = stored(now)
  const taken = await write(async (tx) => {
    await isOfClinic(tx, staff.clinicId, patientId)
    const kept = await noteById(tx, patientId, noteId)
    if (!kept) throw new Refusal('not-found', 'There is no such note of this patient.')
    if (kept.byId !== staff.id)
      throw new Refusal('not-allowed', `Only ${kept.by}, who wrote this note, can take it back.`)
    if (isCorrectionNote(kept.text)) throw new Refusal('conflict', OF_A_CORRECTION)
    if (kept.undoneAt !== null) return { note: noteId, undoneAt: kept.undoneAt }
    if (now.getTime() - Date.parse(kept.at) >= NOTE_UNDO_SECONDS * 1000)
      throw new Refusal('conflict', 'The minute in which a note can be taken back is over: write another.')
    await markNoteUndone(tx, noteId, at, staff.id)
    await note(tx, staff, patientId, `took back the note ${noteId}`, at)
    return { note: noteId, undoneAt: at }
  })
  tell(staff.clinicId, { patientId, kind: 'patient' })
  return taken
}

const note = (tx: Tx, staff: StaffMember, patientId: string, what: string, at: string) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'note',
    patientId,
    what,
  })
