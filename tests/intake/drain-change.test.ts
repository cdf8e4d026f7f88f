import { beforeEach, describe, expect, it } from 'vitest'
import { recordOutsideEvent } from '../../lib/audit/outcomes/index.ts'
import type { StaffMember } from '../../lib/domain/staff.ts'
import { addDrainTo, correctDrain, endFollowUp, receiveReport, undoOrders } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import {
  readPatientPage,
  readWorklist,
  recordStaffEvent,
  sweep,
  takeBackNote,
  withdrawStaffEvent,
} from '../../lib/worklist/index.ts'
import { at, CLINIC, enrolment, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
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

describe('a drain that comes back', () => {
  it('is not put beside another that has its name by now: whoever empties them could not tell them apart', async () => {
    const { patientId, drain } = await patient()
    const event = (type: string, hours: number) =>
      recordStaffEvent(nurse, patientId, { at: iso(hours), drain, type }, `e${++count}`, at(hours))
    const removed = await event('removed', 3)
    await add(patientId, 4, wanted({ label: 'Left kidney', side: 'left' }))
    const back = () =>
      withdrawStaffEvent(nurse, patientId, removed.event, { why: 'mistake' }, `w${++count}`, at(6))
    await expect(back()).rejects.toThrow(/Another drain that is in place is called left kidney/)
    await expect(event('replaced', 6)).rejects.toMatchObject({ kind: 'conflict' })
    expect((await pageOf(patientId, 7)).record.staffEvents).toMatchObject([{ type: 'removed' }])
    await correct(patientId, drain, { label: 'old left kidney', side: 'left' })
    await back()
    expect((await pageOf(patientId, 7)).record.staffEvents).toEqual([])
  })

  it('is not recorded to have been changed before it was placed', async () => {
    const { patientId, drain } = await patient()
    const body = { at: iso(-9000), drain, type: 'exchanged' }
    await expect(recordStaffEvent(nurse, patientId, body, 'early', at(2))).rejects.toMatchObject({
      faults: [{ field: 'at', message: expect.stringContaining('before the drain was placed') }],
    })
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

describe('a drain that was enrolled as another kind', () => {
  const asCollection = { label: 'left kidney', side: 'left', kind: 'collection' }

  it('keeps its readings, is judged by the other kind from then on, and says what it was', async () => {
    const { patientId, drain } = await patient()
    await correct(patientId, drain, asCollection)
    const wrong = await pageOf(patientId, 6)
    expect(wrong.record.drains).toMatchObject([{ id: drain, kind: 'collection' }])
    expect(wrong.limits.drains[drain]?.map(({ says }) => says)).toContain('removal check under 10')
    const right = {
      label: 'left kidney',
      side: 'left',
      kind: 'nephrostomy',
      onlyKidney: true,
      why: 'read the letter',
    }
    await correctDrain(nurse, patientId, drain, right, 'back', at(7))
    const page = await pageOf(patientId, 8)
    expect(page.record.drains).toMatchObject([{ kind: 'nephrostomy', onlyKidney: true }])
    expect(page.limits.drains[drain]?.map(({ says }) => says)).toEqual(['call below 200', 'limit 3000'])
    expect(page.notes[0]?.text).toBe(
      'Drain corrected: left kidney (left), abscess or collection, not the only kidney is left kidney (left), nephrostomy, only kidney. read the letter',
    )
    expect(page.record.reports).toEqual(wrong.record.reports)
  })

  it('loses what was ordered for the wrong kind alone, as a version of its orders that says why', async () => {
    const { patientId } = await patient()
    const through = wanted({ kind: 'nephroureteral', drainage: 'internal-external', course: 'resolving' })
    const { drain } = await add(patientId, 3, through)
    await correct(patientId, drain, { label: 'right kidney', side: 'right', kind: 'nephrostomy' })
    const page = await pageOf(patientId, 6)
    const corrected = page.record.drains.find(({ id }) => id === drain)
    expect(corrected?.drainage ?? 'external').toBe('external')
    expect(corrected?.course ?? 'steady').toBe('steady')
    expect(page.orders[drain]).toMatchObject([
      { version: 2, why: 'the kind is corrected to nephrostomy: sides mixed up' },
      { version: 1 },
    ])
  })

  it('is not undone by half: neither its orders nor its note are taken back alone', async () => {
    const { patientId } = await patient()
    const through = wanted({ kind: 'nephroureteral', drainage: 'internal-external' })
    const { drain } = await add(patientId, 3, through)
    await correct(patientId, drain, { label: 'right kidney', side: 'right', kind: 'nephrostomy' })
    const why = { kind: 'conflict', detail: expect.stringMatching(/correct the drain again/) }
    await expect(undoOrders(nurse, patientId, drain, 2, at(5.001))).rejects.toMatchObject(why)
    const [note] = (await pageOf(patientId, 5.001)).notes
    await expect(takeBackNote(nurse, patientId, note?.id ?? '', at(5.001))).rejects.toMatchObject(why)
    expect((await pageOf(patientId, 6)).orders[drain]?.[0]?.version).toBe(2)
  })

  it('is no only kidney where it drains none', async () => {
    const { patientId, drain } = await patient()
    await expect(correct(patientId, drain, { ...asCollection, onlyKidney: true })).rejects.toMatchObject({
      faults: [{ field: 'onlyKidney' }],
    })
    await expect(correct(patientId, drain, { ...asCollection, kind: 'hose' })).rejects.toMatchObject({
      faults: [{ field: 'kind' }],
    })
    await correctDrain(
      nurse,
      patientId,
      drain,
      { label: 'a', side: null, onlyKidney: true, why: 'x' },
      'o',
      at(5),
    )
    await correct(patientId, drain, asCollection)
    expect((await pageOf(patientId, 6)).record.drains[0]?.onlyKidney ?? false).toBe(false)
  })
})

describe('a drain whose placement was wrong', () => {
  const DAY = 24
  const plan = { logEveryHours: 24, dressingEveryHours: 48, exchangeEveryDays: 90 }
  const asIs = { label: 'left kidney', side: 'left', why: 'read the letter' }
  const place = (patientId: string, drain: string, hours: number, now = 5) =>
    correctDrain(nurse, patientId, drain, { ...asIs, placedAt: iso(hours) }, `p${++count}`, at(now))
  const report = (patientId: string, body: object, hours: number) =>
    receiveReport(
      {
        ...{ clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null },
        ...{ key: `r${++count}`, body },
      },
      at(hours),
    )
  const refusal = (message: string | RegExp) => ({
    kind: 'invalid-input',
    faults: [{ field: 'placedAt', message: expect.stringMatching(message) }],
  })
  const dueOf = async (patientId: string, hours: number) =>
    (await pageOf(patientId, hours)).flags
      .filter(({ code, state }) => code === 'exchange-due' && state === 'open')
      .map(({ urgency }) => urgency)
  const placedOf = async (patientId: string, hours: number) => {
    const { rows } = await readWorklist(nurse, at(hours))
    return rows.find((row) => row.patientId === patientId)?.drains[0]?.placedAt
  }

  it('is judged by the earlier day, and the note names both', async () => {
    const { patientId, drain } = await patient(0, { plan })
    expect(await dueOf(patientId, 4)).toEqual([])
    await place(patientId, drain, -95 * DAY)
    expect(await dueOf(patientId, 6)).toEqual(['within-24h'])
    const page = await pageOf(patientId, 6)
    expect(page.record.drains[0]?.placedAt).toBe(iso(-95 * DAY))
    expect(page.notes[0]?.text).toBe(
      'Drain corrected: left kidney (left), placed 31 Jan 2026, 01:00 is left kidney (left), placed 27 Nov 2025, 01:00. read the letter',
    )
    expect(await placedOf(patientId, 6)).toBe(iso(-95 * DAY))
  })

  it('is judged by the later day while nothing is known that it would hide, and stays where it is left out', async () => {
    const { patientId, drain } = await patient(0, { plan, placedAt: iso(-95 * DAY) })
    expect(await dueOf(patientId, 4)).toEqual(['within-24h'])
    await place(patientId, drain, -2 * DAY)
    expect(await dueOf(patientId, 6)).toEqual([])
    await correctDrain(nurse, patientId, drain, asIs, 'left-out', at(7))
    const page = await pageOf(patientId, 8)
    expect(page.record.drains[0]?.placedAt).toBe(iso(-2 * DAY))
    expect(page.notes[0]?.text).not.toContain('placed')
  })

  it('is not in the future, nor what is no time', async () => {
    const { patientId, drain } = await patient()
    await expect(place(patientId, drain, 5.1)).rejects.toMatchObject(refusal('a time that has come'))
    await expect(correct(patientId, drain, { ...asIs, placedAt: '2026-03-02T08:00' })).rejects.toMatchObject(
      refusal('an instant with offset'),
    )
    expect((await pageOf(patientId, 6)).notes).toEqual([])
  })

  it.each([
    ['reading', 'a reading', (drain: string) => ({ readings: [{ drain, at: iso(2), volumeMl: 90 }] })],
    ['flush', 'a flush', (drain: string) => ({ flushes: [{ drain, at: iso(2), volumeMl: 10 }] })],
    [
      'dressing change',
      'a dressing change',
      (drain: string) => ({ dressings: [{ drain, at: iso(2), skin: 'intact' }] }),
    ],
    [
      'word of its site',
      'what was said of its site',
      (drain: string) => ({ symptoms: { at: iso(2), drains: [{ drain, leak: true }] } }),
    ],
  ])('is not moved past the first %s', async (_what, named, body) => {
    const { patientId, drain } = await patient()
    await report(patientId, body(drain), 3)
    const why = `accepted: up to 2 Mar 2026, 02:59, since ${named} is on record of 2 Mar 2026, 03:00`
    await expect(place(patientId, drain, 2)).rejects.toMatchObject(refusal(why))
    await expect(place(patientId, drain, 4)).rejects.toMatchObject(refusal(why))
    await place(patientId, drain, 1.98)
    await place(patientId, drain, -99 * DAY)
  })

  it('is not moved past what staff recorded of it, but past what was withdrawn, corrected or said before it', async () => {
    const { patientId, drain } = await patient()
    const reading = { readings: [{ drain, at: iso(1), volumeMl: 90 }] }
    const early = { readings: [{ drain, at: iso(-60 * DAY), volumeMl: 90 }] }
    const { report: mistaken } = await report(patientId, reading, 2)
    await report(patientId, { ...early, supersedes: mistaken }, 2.1)
    const event = { at: iso(1.5), drain, type: 'position-checked' }
    const checked = await recordStaffEvent(nurse, patientId, event, 'ev', at(2))
    await expect(place(patientId, drain, 1.6)).rejects.toMatchObject(
      refusal(/up to 2 Mar 2026, 02:30, since ‘position checked’ is on record/),
    )
    await withdrawStaffEvent(nurse, patientId, checked.event, { why: 'mistake' }, 'wd', at(3))
    await place(patientId, drain, 1.6)
    await recordOutsideEvent(nurse, patientId, { kind: 'dislodgement', at: iso(3), drain }, 'out', at(4))
    await expect(place(patientId, drain, 3.5)).rejects.toMatchObject(refusal(/an outside event is on record/))
  })

  it('is not moved past an exchange that was booked and did not come', async () => {
    const { patientId, drain } = await patient(0, { exchangeBookedFor: iso(2) })
    await expect(place(patientId, drain, 4)).rejects.toMatchObject(
      refusal(/up to 2 Mar 2026, 02:59, since a booked exchange/),
    )
    await place(patientId, drain, 1)
  })

  it('is not moved past its capping, nor past ‘out’ that was corrected away', async () => {
    const capped = await patient(0, { cappedAt: iso(-DAY) })
    await expect(place(capped.patientId, capped.drain, 0)).rejects.toMatchObject(
      refusal(/up to 1 Mar 2026, 01:00, since its capping/),
    )
    const { patientId, drain } = await patient()
    const out = { symptoms: { at: iso(1), drains: [{ drain, position: 'out' }] } }
    const { report: first } = await report(patientId, out, 2)
    const well = { symptoms: { at: iso(2), drains: [{ drain, position: 'in-place' }] } }
    await report(patientId, { ...well, supersedes: first }, 2.5)
    await expect(place(patientId, drain, 1.5)).rejects.toMatchObject(refusal(/said of its site/))
  })
})
