import { beforeEach, describe, expect, it } from 'vitest'
import { verifyChain } from '../../lib/access/index.ts'
import { moveReport, receiveReport } from '../../lib/intake/index.ts'
import { correctable } from '../../lib/intake/own-reports.ts'
import { read } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { readPatientPage } from '../../lib/worklist/index.ts'
import {
  at,
  CLINIC,
  type Enrolled,
  iso,
  nurse,
  openClinics,
  patient,
  stranger,
  wellReport,
} from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const send = async (patientId: string, hours: number, body: unknown) =>
  (
    await receiveReport(
      {
        clinicId: CLINIC,
        patientId,
        door: 'phone-in',
        source: nurse.id,
        by: nurse.id,
        key: `k${++count}`,
        body,
      },
      at(hours),
    )
  ).report
const move = (from: string, report: string, body: object, hours = 26, by = nurse, key = `m${++count}`) =>
  moveReport(by, from, report, body, key, at(hours))
const record = async (patientId: string, hours: number) =>
  (await read((tx) => composeRecord(tx, patientId, at(hours))))?.record.reports ?? []
const codes = async (patientId: string, hours: number) =>
  (await readPatientPage(nurse, patientId, at(hours))).flags
    .filter(({ state }) => state === 'open' || state === 'owed')
    .map(({ code, state }) => `${code} ${state}`)

/** Bleeding reported of somebody, filed under somebody else. */
const misfiled = async (): Promise<{ wrong: Enrolled; right: Enrolled; report: string }> => {
  const wrong = await patient()
  const right = await patient()
  const report = await send(wrong.patientId, 24, {
    ...wellReport(wrong.drain, 24),
    readings: [{ drain: wrong.drain, at: iso(23), volumeMl: 300, appearance: 'red' }],
    note: 'It is red.',
  })
  return { wrong, right, report }
}
const asked = ({ wrong, right }: { wrong: Enrolled; right: Enrolled }) => ({
  to: right.patientId,
  drains: { [wrong.drain]: right.drain },
  why: 'two callers, one screen',
})

describe('a report that is moved', () => {
  it('leaves one record at the moment of the move and enters the other, with its own times', async () => {
    const one = await misfiled()
    const { wrong, right, report } = one
    expect(await codes(wrong.patientId, 24)).toEqual(['bleeding open'])
    const moved = await move(wrong.patientId, report, asked(one))
    expect(await record(wrong.patientId, 25.9)).toHaveLength(1)
    expect(await record(right.patientId, 25.9)).toEqual([])
    expect(await record(wrong.patientId, 26)).toEqual([])
    expect(await record(right.patientId, 26)).toMatchObject([
      {
        id: moved.report,
        receivedAt: iso(26),
        readings: [{ drain: right.drain, at: iso(23), volumeMl: 300, appearance: 'red' }],
        symptoms: { at: iso(24), temperatureC: 36.8, drains: [{ drain: right.drain }] },
      },
    ])
    // What could not wait is called about on both sides: here because it holds, there because nobody has called yet.
    expect(await codes(right.patientId, 26)).toEqual(['bleeding open'])
    expect(await codes(wrong.patientId, 26)).toContain('bleeding owed')
  })

  it('stands in both histories and both access records, and keeps the words', async () => {
    const one = await misfiled()
    const { wrong, right, report } = one
    const { report: copy } = await move(wrong.patientId, report, asked(one))
    const there = await readPatientPage(nurse, right.patientId, at(27))
    const here = await readPatientPage(nurse, wrong.patientId, at(27))
    const how = { at: iso(26), by: nurse.name, why: 'two callers, one screen', receivedAt: iso(24) }
    expect(here.moves).toMatchObject([
      { report, direction: 'to', other: { patientId: right.patientId }, ...how },
    ])
    expect(there.moves).toMatchObject([
      { report: copy, direction: 'from', other: { patientId: wrong.patientId }, ...how },
    ])
    expect(there.reports[copy]).toMatchObject({
      note: 'It is red.',
      reporter: 'phone-in',
      enteredBy: nurse.name,
    })
    expect(here.reports[report]).toBeUndefined()
    const entries = await read((tx) => tx.accessRecord.findMany({ where: { action: 'move-report' } }))
    expect(entries.map(({ patientId }) => patientId).sort()).toEqual(
      [right.patientId, wrong.patientId].sort(),
    )
    expect(await read((tx) => verifyChain(tx, CLINIC))).toMatchObject({ whole: true })
    expect(await read((tx) => tx.reading.count())).toBe(2)
  })

  it('takes its corrections with it, and only what counts of them arrives', async () => {
    const one = await misfiled()
    const { wrong, right, report } = one
    const corrected = await send(wrong.patientId, 25, {
      readings: [{ drain: wrong.drain, at: iso(23), volumeMl: 310 }],
      supersedes: report,
    })
    await move(wrong.patientId, report, { ...asked(one) })
    expect(await record(wrong.patientId, 26)).toEqual([])
    expect(await record(right.patientId, 26)).toMatchObject([
      { readings: [{ volumeMl: 310 }], supersedes: null },
    ])
    const rows = await read((tx) => tx.report.findMany({ where: { patientId: wrong.patientId } }))
    expect(rows.map(({ id, movedAt }) => [id, movedAt])).toEqual(
      expect.arrayContaining([
        [report, iso(26)],
        [corrected, iso(26)],
      ]),
    )
  })

  it('is no longer on the check-in page under which it was filed, nor to be corrected there', async () => {
    const wrong = await patient()
    const right = await patient()
    const link = { id: 'l', holder: 'patient' as const, holderName: null, maySee: true }
    const incoming = {
      clinicId: CLINIC,
      patientId: wrong.patientId,
      door: 'check-in' as const,
      source: 'w',
      by: null,
    }
    const { report } = await receiveReport(
      { ...incoming, link, key: 'one', body: wellReport(wrong.drain, 24) },
      at(24),
    )
    await move(wrong.patientId, report, asked({ wrong, right }))
    const composed = await read((tx) => composeRecord(tx, wrong.patientId, at(27)))
    expect(composed && correctable(composed, link, at(27))).toEqual([])
    await expect(
      receiveReport({ ...incoming, link, key: 'two', body: { note: 'x', supersedes: report } }, at(27)),
    ).rejects.toMatchObject({ kind: 'invalid-input' })
  })

  it('is stored once, however often it is sent', async () => {
    const one = await misfiled()
    const first = await move(one.wrong.patientId, one.report, asked(one), 26, nurse, 'same')
    expect(await move(one.wrong.patientId, one.report, asked(one), 26.1, nurse, 'same')).toEqual(first)
    await expect(move(one.wrong.patientId, one.report, asked(one), 27)).rejects.toMatchObject({
      kind: 'conflict',
    })
    expect(await record(one.right.patientId, 28)).toHaveLength(1)
  })
})

describe('a move that does not fit is refused and changes nothing', () => {
  const cases: [string, (one: Awaited<ReturnType<typeof misfiled>>) => [object, object]][] = [
    ['without a reason', (one) => [{ ...asked(one), why: ' ' }, { kind: 'invalid-input' }]],
    ['to the same patient', (one) => [{ ...asked(one), to: one.wrong.patientId }, { kind: 'conflict' }]],
    ['to nobody', (one) => [{ ...asked(one), to: 'nobody' }, { kind: 'not-found' }]],
    ['with a drain left out', (one) => [{ ...asked(one), drains: {} }, { kind: 'invalid-input' }]],
    [
      'to a drain of the wrong patient',
      (one) => [{ ...asked(one), drains: { [one.wrong.drain]: one.wrong.drain } }, { kind: 'invalid-input' }],
    ],
    [
      'with a drain that the report does not name',
      (one) => [
        { ...asked(one), drains: { [one.wrong.drain]: one.right.drain, other: one.right.drain } },
        { kind: 'invalid-input' },
      ],
    ],
  ]
  it.each(cases)('%s', async (_name, body) => {
    const one = await misfiled()
    const [sent, refusal] = body(one)
    await expect(move(one.wrong.patientId, one.report, sent)).rejects.toMatchObject(refusal)
    expect(await record(one.wrong.patientId, 27)).toHaveLength(1)
    expect(await record(one.right.patientId, 27)).toEqual([])
  })

  it('to a drain that was placed later than what it says, or by another clinic', async () => {
    const one = await misfiled()
    const late = await patient(25, { placedAt: iso(24.5) })
    await expect(
      move(one.wrong.patientId, one.report, {
        to: late.patientId,
        drains: { [one.wrong.drain]: late.drain },
        why: 'x',
      }),
    ).rejects.toMatchObject({ faults: [{ field: `drains.${one.wrong.drain}` }] })
    await expect(move(one.wrong.patientId, one.report, asked(one), 26, stranger)).rejects.toMatchObject({
      kind: 'not-found',
    })
  })
})
