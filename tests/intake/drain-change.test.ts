import { beforeEach, describe, expect, it } from 'vitest'
import type { StaffMember } from '../../lib/domain/staff.ts'
import { addDrainTo, correctDrain, endFollowUp } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { readPatientPage, readWorklist, recordStaffEvent, sweep } from '../../lib/worklist/index.ts'
import { at, enrolment, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const [tube] = enrolment().drains
const wanted = (change: object = {}) => ({ ...tube, label: 'right kidney', side: 'right', ...change })
const add = (patientId: string, hours: number, drain: object, by: StaffMember = nurse, why = 'second tube') =>
  addDrainTo(by, patientId, { drain, why }, `a${++count}`, at(hours))
const correct = (patientId: string, drain: string, body: object, by: StaffMember = nurse) =>
  correctDrain(by, patientId, drain, { why: 'sides mixed up', ...body }, `c${++count}`, at(5))
const pageOf = (patientId: string, hours: number) => readPatientPage(nurse, patientId, at(hours))

describe('a drain that is added', () => {
  it('is followed from then on, with its orders and its booking, and was not known before', async () => {
    const { patientId } = await patient()
    const placedAt = iso(-24)
    const { drain } = await add(patientId, 3, wanted({ placedAt, exchangeBookedFor: iso(900) }))
    const page = await pageOf(patientId, 4)
    expect(page.record.drains).toMatchObject([{}, { id: drain, placedAt, exchangeBookedFor: iso(900) }])
    expect(page.labels[drain]?.label).toBe('right kidney')
    expect(page.orders[drain]).toMatchObject([{ version: 1, why: 'second tube', by: nurse.name }])
    expect((await pageOf(patientId, 2)).record.drains).toHaveLength(1)
    await sweep(at(80))
    const { rows } = await readWorklist(nurse, at(80))
    expect(rows.find((row) => row.patientId === patientId)?.drains.map(({ id }) => id)).toContain(drain)
  })

  it.each([
    ['placed in the future', { placedAt: iso(90) }, 'drain.placedAt'],
    ['with the name of one that is in place', { label: 'Left Kidney ' }, 'drain.label'],
    ['with a booking that has passed', { exchangeBookedFor: iso(1) }, 'drain.exchangeBookedFor'],
    ['of no kind', { kind: 'hose' }, 'drain.kind'],
  ])('%s is refused', async (_what, change, field) => {
    const { patientId } = await patient()
    await expect(add(patientId, 3, wanted(change))).rejects.toMatchObject({ faults: [{ field }] })
    expect(await read((tx) => tx.drain.count({ where: { patientId } }))).toBe(1)
  })

  it('is refused without a reason, in another clinic, after follow-up, and as the thirteenth in place', async () => {
    const { patientId, drain } = await patient()
    await expect(add(patientId, 3, wanted(), nurse, ' ')).rejects.toMatchObject({
      faults: [{ field: 'why' }],
    })
    await expect(add(patientId, 3, wanted(), stranger)).rejects.toMatchObject({ kind: 'not-found' })
    for (let i = 2; i <= 12; i++) await add(patientId, 3, wanted({ label: `tube ${i}` }))
    await expect(add(patientId, 3, wanted({ label: 'tube 13' }))).rejects.toMatchObject({ kind: 'conflict' })
    await recordStaffEvent(nurse, patientId, { at: iso(4), drain, type: 'removed' }, 'r', at(4))
    await add(patientId, 4, wanted({ label: 'tube 13' }))
    const other = await patient()
    await endFollowUp(nurse, other.patientId, { reason: 'died' }, 'end', at(3))
    await expect(add(other.patientId, 4, wanted())).rejects.toThrow(/Follow-up of this patient has ended/)
  })
})

describe('a drain whose name or side was wrong', () => {
  it('is named anew everywhere, and what it was stands in a signed note and in the access record', async () => {
    const { patientId, drain } = await patient()
    await correct(patientId, drain, { label: 'right kidney', side: 'right' })
    const page = await pageOf(patientId, 6)
    expect(page.labels[drain]?.label).toBe('right kidney')
    expect(page.record.drains[0]?.side).toBe('right')
    expect(page.notes[0]).toMatchObject({
      by: nurse.name,
      text: 'Drain corrected: left kidney (left) is right kidney (right). sides mixed up',
    })
    const entries = await read((tx) => tx.accessRecord.findMany({ where: { action: 'correct-drain' } }))
    expect(entries).toMatchObject([{ patientId, what: expect.stringContaining('sides mixed up') }])
  })

  it('is refused without a reason, with the name of another, of another patient and in another clinic', async () => {
    const { patientId, drain } = await patient()
    await add(patientId, 3, wanted())
    const body = { label: 'Right kidney', side: 'right' }
    await expect(correct(patientId, drain, body)).rejects.toMatchObject({ faults: [{ field: 'label' }] })
    await expect(correct(patientId, drain, { ...body, why: '' })).rejects.toMatchObject({
      faults: [{ field: 'why' }],
    })
    await expect(correct(patientId, 'd9', body)).rejects.toMatchObject({ kind: 'not-found' })
    await expect(correct(patientId, drain, body, stranger)).rejects.toMatchObject({ kind: 'not-found' })
    expect((await pageOf(patientId, 6)).labels[drain]?.label).toBe('left kidney')
  })
})
