import { beforeEach, describe, expect, it } from 'vitest'
import { PatientPage } from '../../lib/domain/patient-page.ts'
import { read } from '../../lib/store/index.ts'
import { noteCallSheetTaken, readPatientPage, takeBackNote, writeNote } from '../../lib/worklist/index.ts'
import { at, iso, nurse, openClinics, otherNurse, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const second = 1 / 3600
const notesOf = async (patientId: string) => (await readPatientPage(nurse, patientId, at(9))).notes

describe('a note without a call', () => {
  it('stands on the page with who and when, the latest first, and is written once per key', async () => {
    const { patientId } = await patient()
    const first = await writeNote(nurse, patientId, { text: ' Bags ordered. ' }, 'k1', at(1))
    expect(first.undoUntil).toBe(iso(1 + 60 * second))
    expect(await writeNote(nurse, patientId, { text: ' Bags ordered. ' }, 'k1', at(2))).toEqual(first)
    await writeNote(otherNurse, patientId, { text: 'Bags came.' }, 'k2', at(3))
    const page = await readPatientPage(nurse, patientId, at(9))
    expect(PatientPage.parse(page)).toEqual(page)
    expect(page.notes.map(({ at: when, by, text }) => [when, by, text])).toEqual([
      [iso(3), otherNurse.name, 'Bags came.'],
      [iso(1), nurse.name, 'Bags ordered.'],
    ])
  })

  it('moves no flag and counts as no call', async () => {
    const { patientId } = await patient()
    const before = await readPatientPage(nurse, patientId, at(60))
    await writeNote(nurse, patientId, { text: 'Seen.' }, 'k', at(60))
    const after = await readPatientPage(nurse, patientId, at(60))
    expect(after.flags).toEqual(before.flags)
    expect(after.callbacks).toEqual([])
  })

  it('is taken back within its minute, and stays readable', async () => {
    const { patientId } = await patient()
    const { note } = await writeNote(nurse, patientId, { text: 'Wrong person.' }, 'k', at(1))
    const undone = { note, undoneAt: iso(1 + 59 * second) }
    expect(await takeBackNote(nurse, patientId, note, at(1 + 59 * second))).toEqual(undone)
    expect(await takeBackNote(nurse, patientId, note, at(2))).toEqual(undone)
    expect(await notesOf(patientId)).toMatchObject([
      { text: 'Wrong person.', undoneAt: undone.undoneAt, undoneBy: nurse.name },
    ])
    const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'note' } }))
    expect(seen.map(({ what }) => what)).toEqual([`wrote the note ${note}`, `took back the note ${note}`])
  })

  it('stays after its minute, and is nobody else’s to take back', async () => {
    const { patientId } = await patient()
    const { note } = await writeNote(nurse, patientId, { text: 'Seen.' }, 'k', at(1))
    await expect(takeBackNote(otherNurse, patientId, note, at(1))).rejects.toMatchObject({
      kind: 'not-allowed',
    })
    await expect(takeBackNote(nurse, patientId, note, at(1 + 60 * second))).rejects.toMatchObject({
      kind: 'conflict',
    })
    expect(await notesOf(patientId)).toMatchObject([{ undoneAt: null }])
  })

  it('is the clinic’s own, and its patient’s', async () => {
    const { patientId } = await patient()
    const other = await patient()
    const { note } = await writeNote(nurse, patientId, { text: 'Seen.' }, 'k', at(1))
    const missing = { kind: 'not-found' }
    await expect(writeNote(stranger, patientId, { text: 'x' }, 'k2', at(1))).rejects.toMatchObject(missing)
    await expect(takeBackNote(stranger, patientId, note, at(1))).rejects.toMatchObject(missing)
    await expect(takeBackNote(nurse, other.patientId, note, at(1))).rejects.toMatchObject(missing)
    expect(await notesOf(other.patientId)).toEqual([])
  })

  it.each([
    ['no words', ' '],
    ['too many words', 'x'.repeat(4001)],
  ])('is refused with %s', async (_, text) => {
    const { patientId } = await patient()
    await expect(writeNote(nurse, patientId, { text }, 'k', at(1))).rejects.toMatchObject({
      faults: [{ field: 'text' }],
    })
  })
})

it('a call sheet that is copied or printed stands in the access record', async () => {
  const { patientId } = await patient()
  await noteCallSheetTaken(nurse, patientId, { how: 'printed' }, at(1))
  await expect(noteCallSheetTaken(nurse, patientId, { how: 'sung' }, at(1))).rejects.toMatchObject({
    faults: [{ field: 'how' }],
  })
  await expect(noteCallSheetTaken(stranger, patientId, { how: 'copied' }, at(1))).rejects.toMatchObject({
    kind: 'not-found',
  })
  const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'take-call-sheet' } }))
  expect(seen.map(({ what, patientId: of }) => [what, of])).toEqual([['printed the call sheet', patientId]])
})
