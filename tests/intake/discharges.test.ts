import { beforeEach, describe, expect, it } from 'vitest'
import {
  addToDischarges,
  countWaiting,
  enrol,
  readDischarges,
  setAsideDischarge,
  takeDischargeFile,
  waitingDischarge,
} from '../../lib/intake/index.ts'
import { read, write } from '../../lib/store/index.ts'
import { at, enrolment, iso, nurse, openClinics, otherNurse, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const entry = (change: object = {}) => ({
  recordNumber: 'D-1',
  name: 'Orla Fennimore',
  birthDate: '1959-04-03',
  phone: '+1 555 0133',
  dischargedOn: '2026-02-27',
  drainKind: 'biliary',
  note: 'home with her brother',
  ...change,
})
const add = (change: object = {}, key = JSON.stringify(change)) =>
  addToDischarges(nurse, entry(change), key.slice(0, 100), at(0))
const names = async () => (await readDischarges(nurse, at(1))).waiting.map(({ name }) => name)

describe('the list of discharges', () => {
  it('shows who waits, the oldest first, with the days since', async () => {
    await add({ recordNumber: 'D-2', name: 'Later', dischargedOn: '2026-03-01' })
    const { id } = await add()
    const { waiting } = await readDischarges(nurse, at(0))
    expect(waiting.map(({ name, days }) => [name, days])).toEqual([
      ['Orla Fennimore', 3],
      ['Later', 1],
    ])
    expect(waiting[0]).toMatchObject({
      id,
      phone: '+1 555 0133',
      drainKind: 'biliary',
      formerPatientId: null,
    })
    expect(await countWaiting(nurse)).toBe(2)
    expect(await countWaiting(stranger)).toBe(0)
    expect(await waitingDischarge(stranger, id)).toBeNull()
  })

  it('takes nobody twice for a day, nobody in follow-up, and no day to come', async () => {
    await add()
    await expect(add({ name: 'Again' })).rejects.toMatchObject({ kind: 'conflict' })
    await enrol(nurse, enrolment({ recordNumber: 'E-1' }), 'k', at(0))
    await expect(add({ recordNumber: 'E-1' })).rejects.toMatchObject({ kind: 'conflict' })
    await expect(add({ recordNumber: 'D-3', dischargedOn: '2026-03-03' })).rejects.toMatchObject({
      faults: [{ field: 'dischargedOn' }],
    })
    await expect(add({ recordNumber: '' })).rejects.toMatchObject({ faults: [{ field: 'recordNumber' }] })
    expect(await countWaiting(nurse)).toBe(1)
  })

  it('enrolment settles the entry that it came from, and any of the same record number', async () => {
    const { id } = await add()
    await add({ dischargedOn: '2026-02-20' })
    await add({ recordNumber: 'D-9', name: 'Somebody Else' })
    const { patientId } = await enrol(nurse, enrolment({ recordNumber: 'D-1', discharge: id }), 'k', at(1))
    expect(await names()).toEqual(['Somebody Else'])
    const { settled } = await readDischarges(nurse, at(2))
    expect(settled).toHaveLength(2)
    expect(settled[0]).toMatchObject({ patientId, why: null, by: nurse.name, settledAt: iso(1) })
    expect(await waitingDischarge(nurse, id)).toBeNull()
    await expect(enrol(nurse, enrolment({ discharge: 'nobody' }), 'k2', at(1))).rejects.toMatchObject({
      faults: [{ field: 'discharge' }],
    })
  })

  it('an entry whose number was mistyped is settled by the enrolment that names it', async () => {
    const { id } = await add({ recordNumber: 'D-l' })
    await enrol(nurse, enrolment({ recordNumber: 'D-1', discharge: id }), 'k', at(1))
    expect(await countWaiting(nurse)).toBe(0)
  })

  it('sets aside for a reason, once', async () => {
    const { id } = await add()
    await expect(setAsideDischarge(nurse, id, { why: ' ' }, 'k', at(1))).rejects.toMatchObject({
      faults: [{ field: 'why' }],
    })
    await setAsideDischarge(nurse, id, { why: 'drain taken out on the ward' }, 'k', at(1))
    await setAsideDischarge(nurse, id, { why: 'drain taken out on the ward' }, 'k', at(1))
    await expect(setAsideDischarge(otherNurse, id, { why: 'x' }, 'k', at(1))).rejects.toMatchObject({
      kind: 'conflict',
    })
    await expect(setAsideDischarge(stranger, id, { why: 'x' }, 'k', at(1))).rejects.toMatchObject({
      kind: 'not-found',
    })
    const { waiting, settled } = await readDischarges(nurse, at(2))
    expect(waiting).toEqual([])
    expect(settled).toMatchObject([{ why: 'drain taken out on the ward', patientId: null }])
  })

  it('somebody whose follow-up has ended waits again, with the way to the earlier chart', async () => {
    const { patientId } = await enrol(nurse, enrolment({ recordNumber: 'D-1' }), 'k', at(0))
    await write((tx) =>
      tx.patient.update({
        where: { id: patientId },
        data: { followUpEndedAt: iso(1), followUpEnd: 'removed' },
      }),
    )
    await add()
    expect((await readDischarges(nurse, at(2))).waiting).toMatchObject([{ formerPatientId: patientId }])
  })

  it('whoever looks stands in the access record', async () => {
    const { id } = await add()
    await readDischarges(nurse, at(1))
    const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'keep-discharges' } }))
    expect(seen.map(({ what }) => what)).toEqual([
      `put on the list of discharges: ${id}`,
      `saw on the list of discharges: ${id}`,
    ])
  })
})

const HEADER = 'record_number,name,birth_date,phone,discharged_at,drain_kind,note'
const file = (...lines: string[]) => [HEADER, ...lines].join('\n')
const good = [
  'F-1,Ada Fern,1950-01-02,+1 555 0101,2026-02-28,bulb,',
  'F-2,"Moss, Ida",1951-02-03,,2026-03-01 14:30,,"two\nlines"',
]
const take = (csv: string, dryRun = false, staff = nurse) => takeDischargeFile(staff, { csv, dryRun }, at(0))

describe('a file of discharges', () => {
  it('is looked at without adding, then taken in whole; a second time it adds nothing', async () => {
    expect(await take(file(...good), true)).toEqual({ lines: 2, faults: [], added: 2, known: 0, enrolled: 0 })
    expect(await countWaiting(nurse)).toBe(0)
    expect(await take(file(...good))).toMatchObject({ added: 2 })
    expect(await take(file(...good))).toMatchObject({ lines: 2, added: 0, known: 2 })
    expect(await names()).toEqual(['Ada Fern', 'Moss, Ida'])
    const [, ida] = (await readDischarges(nurse, at(1))).waiting
    expect(ida).toMatchObject({
      dischargedOn: '2026-03-01',
      drainKind: null,
      phone: null,
      note: 'two\nlines',
    })
  })

  it('with one bad line is not taken at all, and each fault is named by its line', async () => {
    const csv = file(
      good[0] ?? '',
      good[1] ?? '',
      ',No Number,1950-01-02,,2026-02-28,,',
      'F-4,Bad Dates,02.01.1950,,2026-04-01,hose,',
      'F-5,Short',
      'F-1,Twice,1950-01-02,,2026-02-28,,',
    )
    const { faults, added } = await take(csv)
    expect(added).toBe(0)
    expect(faults.map(({ line, column }) => [line, column])).toEqual([
      [5, 'record_number'],
      [6, 'birth_date'],
      [6, 'drain_kind'],
      [7, '(whole)'],
      [8, 'record_number'],
    ])
    expect(await countWaiting(nurse)).toBe(0)
  })

  it('may come from a spreadsheet: a byte order mark, semicolons, other order, columns left out', async () => {
    const csv =
      '\ufeffName;Record_Number;Birth_Date;Discharged_At\r\nAda Fern;F-1;1950-01-02;2026-02-28\r\n\r\n'
    expect(await take(csv)).toMatchObject({ added: 1, faults: [] })
  })

  it('passes over whoever is in follow-up', async () => {
    await enrol(nurse, enrolment({ recordNumber: 'F-1' }), 'k', at(0))
    expect(await take(file(...good))).toMatchObject({ added: 1, enrolled: 1 })
  })

  it.each([
    ['no header', 'F-1,Ada Fern,1950-01-02', 1],
    ['a column that is none', `${HEADER},weight\nF-1,Ada,1950-01-02,,2026-02-28,,,80`, 1],
  ])('with %s is refused', async (_name, csv, line) => {
    const { faults } = await take(csv)
    expect(faults[0]?.line).toBe(line)
    expect(await countWaiting(nurse)).toBe(0)
  })

  it('that is no CSV, or is too large, is refused', async () => {
    await expect(take(`${HEADER}\n"open`)).rejects.toMatchObject({ kind: 'invalid-input' })
    await expect(take('x'.repeat(60_001))).rejects.toMatchObject({ kind: 'invalid-input' })
  })
})
