import { beforeEach, describe, expect, it } from 'vitest'
import type { StaffMember } from '../../lib/domain/staff.ts'
import { endFollowUp, endsWithDrain, resumeFollowUp } from '../../lib/intake/index.ts'
import { read, write } from '../../lib/store/index.ts'
import { addLetter } from '../../lib/store/outbox.ts'
import { readPatientPage, readWorklist, recordStaffEvent, sweep, takeRow } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, otherNurse, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

const physician: StaffMember = {
  id: 'physician',
  clinicId: CLINIC,
  name: 'Pia Invented',
  email: 'physician@larkfield.example',
  role: 'physician',
}

databasePerTest()
beforeEach(async () => {
  await openClinics()
  const { id, clinicId, name, email, role } = physician
  await write((tx) =>
    tx.staff.create({ data: { id, clinicId, name, email, role, createdAt: at(0), updatedAt: at(0) } }),
  )
})

let count = 0
const end = (patientId: string, hours: number, body: object, by = nurse, key = `f${++count}`) =>
  endFollowUp(by, patientId, body, key, at(hours))
const undo = (patientId: string, hours: number, by = nurse, why = 'the wrong patient', key = `u${++count}`) =>
  resumeFollowUp(by, patientId, { why }, key, at(hours))
const takeOut = (patientId: string, drain: string, hours: number) =>
  recordStaffEvent(nurse, patientId, { at: iso(hours), drain, type: 'removed' }, `e${++count}`, at(hours))
const followUp = async (patientId: string, hours: number) =>
  (await readPatientPage(nurse, patientId, at(hours))).followUp
const rows = async (hours: number) => (await readWorklist(nurse, at(hours))).rows
/** A patient whose log is a day late at hour 48, so that a row stands. */
const late = async () => {
  const enrolled = await patient()
  await sweep(at(48))
  expect(await rows(48)).toHaveLength(1)
  return enrolled
}
const state = (patientId: string) => read((tx) => tx.patientState.findUniqueOrThrow({ where: { patientId } }))

describe('the end of follow-up', () => {
  it('takes the row from the worklist, gives it back to nobody, and leaves the flags in the record', async () => {
    const { patientId, drain } = await late()
    await takeRow(nurse, patientId, at(48))
    await takeOut(patientId, drain, 48.5)
    const flags = await read((tx) => tx.flag.findMany())
    expect(await end(patientId, 49, { reason: 'removed' })).toEqual({ endedAt: iso(49) })
    expect(await rows(49)).toEqual([])
    expect(await read((tx) => tx.flag.findMany())).toEqual(flags)
    expect(await read((tx) => tx.hold.count())).toBe(0)
    expect(await followUp(patientId, 50)).toMatchObject({
      endedAt: iso(49),
      endedBy: nurse.name,
      reason: 'removed',
    })
  })

  it('is passed by in the sweep and no longer counted', async () => {
    const { patientId, drain } = await patient()
    await takeOut(patientId, drain, 1)
    await end(patientId, 2, { reason: 'declined' })
    expect(await state(patientId)).toMatchObject({ nextCheckAt: null, nextReminderAt: null })
    expect((await sweep(at(500))).assessed).toBe(0)
    expect(await readWorklist(nurse, at(500))).toMatchObject({
      rows: [],
      patients: 0,
      notHeard: 0,
      nothingFlagged: 0,
    })
  })

  it('gives up the reminders that have not gone out, and no other letter', async () => {
    const { patientId } = await patient()
    const letter = { clinicId: CLINIC, patientId, kind: 'reminder', body: { to: 'somebody' } }
    await write(async (tx) => {
      await addLetter(tx, letter, at(1))
      await addLetter(tx, { ...letter, kind: 'pressing-flags' }, at(1))
      const { id: letterId } = await tx.outbox.findFirstOrThrow({ where: { kind: 'reminder' } })
      await tx.reminder.create({
        data: {
          id: 'r',
          clinicId: CLINIC,
          patientId,
          kind: 'due',
          dueAt: iso(1),
          channel: 'email',
          letterId,
          recordedAt: iso(1),
        },
      })
    })
    await end(patientId, 2, { reason: 'died' })
    const letters = await read((tx) => tx.outbox.findMany({ orderBy: { kind: 'asc' } }))
    expect(letters).toMatchObject([
      { kind: 'pressing-flags', givenUpAt: null },
      { kind: 'reminder', givenUpAt: iso(2), body: '{}', sentAt: null },
    ])
  })

  it('is refused twice, without a known reason, and to another clinic', async () => {
    const { patientId } = await patient()
    await expect(end(patientId, 1, { reason: 'tired' })).rejects.toMatchObject({ kind: 'invalid-input' })
    await expect(end(patientId, 1, { reason: 'died' }, stranger)).rejects.toMatchObject({ kind: 'not-found' })
    await end(patientId, 1, { reason: 'died' })
    await expect(end(patientId, 2, { reason: 'died' })).rejects.toMatchObject({ kind: 'conflict' })
  })

  it('is recorded once per key', async () => {
    const { patientId } = await patient()
    await end(patientId, 1, { reason: 'died' }, nurse, 'same')
    expect(await end(patientId, 1, { reason: 'died' }, nurse, 'same')).toEqual({ endedAt: iso(1) })
    expect(await read((tx) => tx.followUpStep.count())).toBe(1)
  })

  it('stands in the access record', async () => {
    const { patientId } = await patient()
    await end(patientId, 1, { reason: 'transferred', why: 'to Highfield (invented)' }, physician)
    const entries = await read((tx) => tx.accessRecord.findMany({ where: { action: 'end-follow-up' } }))
    expect(entries).toMatchObject([
      {
        staffId: physician.id,
        patientId,
        what: 'follow-up ended: transferred, with 1 drain in place: to Highfield (invented)',
      },
    ])
  })
})

describe('with a drain in place', () => {
  it.each(['removed', 'transferred', 'declined', 'consent-withdrawn'])(
    'a nurse cannot end it: %s',
    async (reason) => {
      const { patientId } = await patient()
      await expect(end(patientId, 1, { reason, why: 'so it is' })).rejects.toMatchObject({
        kind: 'not-allowed',
      })
      expect(await read((tx) => tx.followUpStep.count())).toBe(0)
    },
  )
  it('a physician can, who says why', async () => {
    const { patientId } = await patient()
    await expect(end(patientId, 1, { reason: 'declined' }, physician)).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field: 'why' }],
    })
    await end(patientId, 1, { reason: 'declined', why: 'they were told what may happen' }, physician)
    expect((await followUp(patientId, 2)).why).toBe('they were told what may happen')
  })
  it('a death needs nobody’s leave', async () => {
    const { patientId } = await patient()
    expect(await endsWithDrain(nurse, patientId, { reason: 'died' }, at(1))).toBe(false)
    await end(patientId, 1, { reason: 'died' })
    expect((await followUp(patientId, 2)).reason).toBe('died')
  })
  it('one of two taken out is not enough', async () => {
    const { patientId, drain } = await patient()
    expect(await endsWithDrain(nurse, patientId, { reason: 'removed' }, at(1))).toBe(true)
    await takeOut(patientId, drain, 1)
    expect(await endsWithDrain(nurse, patientId, { reason: 'removed' }, at(2))).toBe(false)
    await recordStaffEvent(nurse, patientId, { at: iso(3), drain, type: 'placed' }, 'again', at(3))
    expect(await endsWithDrain(nurse, patientId, { reason: 'removed' }, at(4))).toBe(true)
  })
})

describe('the undoing', () => {
  it('of anything but a death is one person’s, and the patient is assessed anew', async () => {
    const { patientId } = await late()
    await end(patientId, 49, { reason: 'declined', why: 'they say so' }, physician)
    expect(await rows(49)).toEqual([])
    expect(await undo(patientId, 50, nurse)).toEqual({ state: 'resumed' })
    expect(await rows(50)).toMatchObject([{ patientId, followUpEnd: null }])
    expect((await state(patientId)).nextCheckAt).toEqual(expect.any(String))
    expect(await followUp(patientId, 51)).toMatchObject({ endedAt: null, reason: null, undoAskedBy: null })
  })

  it('of a death takes two people', async () => {
    const { patientId } = await late()
    await end(patientId, 49, { reason: 'died' })
    expect(await undo(patientId, 50, nurse, 'it was the neighbour')).toEqual({ state: 'asked' })
    expect(await followUp(patientId, 50)).toMatchObject({
      endedAt: iso(49),
      undoAskedBy: nurse.name,
      undoAskedById: nurse.id,
      undoWhy: 'it was the neighbour',
    })
    expect(await rows(50)).toEqual([])
    await expect(undo(patientId, 51, nurse)).rejects.toMatchObject({ kind: 'conflict' })
    expect(await undo(patientId, 52, otherNurse)).toEqual({ state: 'resumed' })
    expect(await rows(52)).toHaveLength(1)
  })

  it('of a second death takes two people again', async () => {
    const { patientId } = await patient()
    await end(patientId, 1, { reason: 'died' })
    await undo(patientId, 2, nurse)
    await undo(patientId, 3, otherNurse)
    await end(patientId, 4, { reason: 'died' })
    expect(await undo(patientId, 5, otherNurse)).toEqual({ state: 'asked' })
    const steps = await read((tx) => tx.followUpStep.findMany({ orderBy: { recordedAt: 'asc' } }))
    expect(steps.map(({ step }) => step)).toEqual(['ended', 'undo-asked', 'resumed', 'ended', 'undo-asked'])
  })

  it('needs a reason, and an end', async () => {
    const { patientId } = await patient()
    await expect(undo(patientId, 1)).rejects.toMatchObject({ kind: 'conflict' })
    await end(patientId, 1, { reason: 'died' })
    await expect(undo(patientId, 2, nurse, ' ')).rejects.toMatchObject({ kind: 'invalid-input' })
    await expect(undo(patientId, 2, stranger)).rejects.toMatchObject({ kind: 'not-found' })
  })
})
