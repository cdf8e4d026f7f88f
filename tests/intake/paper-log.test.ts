import { beforeEach, describe, expect, it } from 'vitest'
import { emptyRow, type PaperColumn, withCell } from '../../lib/domain/paper-sheet.ts'
import { enterPaperLog, receiveReport } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { readPatientPage } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const row = (date: string, time: string, cells: Partial<Record<PaperColumn, string>>) =>
  Object.entries({ date, time, ...cells }).reduce(
    (all, [column, text]) => withCell(all, column as PaperColumn, text),
    emptyRow(),
  )
const unasked = { volumeUnit: null, temperatureUnit: null, dateOrder: null }
let count = 0
const enter = (
  patientId: string,
  rows: string[][],
  { by = 'row', dry = false, answers = {}, key = `p${++count}`, staff = nurse, hours = 72 } = {},
) => enterPaperLog(staff, patientId, { rows, by, dry, answers: { ...unasked, ...answers } }, key, at(hours))
const reports = async (patientId: string) =>
  (await read((tx) => composeRecord(tx, patientId, at(80))))?.record.reports ?? []

// Denver is seven hours behind: 01:00 UTC of the store's first day is 18:00 of the day before there.
const week = [
  row('2026-03-02', '18:00', { ml: '310', looks: 'clear', temperature: '36.9' }),
  row('2026-03-03', '8:00', { ml: '290', note: 'slept well' }),
  row('2026-03-03', '18:00', { ml: '?', flush: '10', ease: 'easy' }),
]

describe('a paper log', () => {
  it('is stored whole, back-dated in the patient’s zone, as reports by phone that say where they are from', async () => {
    const { patientId, drain } = await patient()
    expect(await enter(patientId, week)).toMatchObject({ stored: true, rows: 3, reports: 3, faults: [] })
    const stored = await reports(patientId)
    expect(stored.map(({ receivedAt }) => receivedAt)).toEqual([iso(72), iso(72), iso(72)])
    expect(
      stored.flatMap((report) => report.readings ?? []).map((one) => [one.drain, one.at, one.volumeMl]),
    ).toEqual(
      expect.arrayContaining([
        [drain, '2026-03-03T01:00:00.000Z', 310],
        [drain, '2026-03-03T15:00:00.000Z', 290],
        [drain, '2026-03-04T01:00:00.000Z', null],
      ]),
    )
    const page = await readPatientPage(nurse, patientId, at(73))
    expect(Object.values(page.reports)).toEqual(
      expect.arrayContaining([
        {
          reporter: 'phone-in',
          sentBy: null,
          enteredBy: nurse.name,
          note: 'From the paper log.\nslept well',
        },
      ]),
    )
    expect(await read((tx) => tx.accessRecord.count({ where: { action: 'paper-log', patientId } }))).toBe(1)
  })

  it('makes one report a day where that is chosen', async () => {
    const { patientId } = await patient()
    expect(await enter(patientId, week, { by: 'day' })).toMatchObject({ stored: true, rows: 3, reports: 2 })
    expect((await reports(patientId)).map((report) => report.readings?.length).sort()).toEqual([1, 2])
  })

  it('is stored once, however often it is sent', async () => {
    const { patientId } = await patient()
    const [one, two] = await Promise.all([
      enter(patientId, week, { key: 'same' }),
      enter(patientId, week, { key: 'same' }),
    ])
    expect(two).toEqual(one)
    expect(await reports(patientId)).toHaveLength(3)
  })

  it('is only looked at in a dry run', async () => {
    const { patientId } = await patient()
    expect(await enter(patientId, week, { dry: true })).toMatchObject({ stored: false, rows: 3, reports: 3 })
    expect(await reports(patientId)).toEqual([])
  })

  it('with one row at fault stores none, and can be sent again under its key once mended', async () => {
    const { patientId } = await patient()
    const bad = [...week, row('2026-03-04', '8:00', { ml: '-3', pain: '11', looks: 'purple' })]
    const outcome = await enter(patientId, bad, { key: 'sheet' })
    expect(outcome).toMatchObject({ stored: false, reports: 0 })
    expect(outcome.faults.map((fault) => [fault.row, fault.column])).toEqual([
      [4, 'ml'],
      [4, 'looks'],
      [4, 'pain'],
    ])
    for (const { message } of outcome.faults) expect(message).toContain('accepted')
    expect(await reports(patientId)).toEqual([])
    expect(await enter(patientId, week, { key: 'sheet' })).toMatchObject({ stored: true, reports: 3 })
  })

  it('asks what units and dates mean, and stores nothing before it is answered', async () => {
    const { patientId } = await patient()
    const rows = [row('3/2/2026', '18:00', { ml: '12 oz', looks: 'clear', temperature: '99.5' })]
    expect(await enter(patientId, rows)).toMatchObject({
      stored: false,
      reports: 0,
      asks: { volumeUnit: true, temperatureUnit: true, dateOrder: true },
      faults: [],
    })
    // What is wrong beside it is said at once, not after the answer.
    const bad = [row('3/2/2026', '18:00', { ml: '12 oz', looks: 'purple', pain: '11' }), ...rows]
    expect((await enter(patientId, bad)).faults.map((fault) => [fault.row, fault.column])).toEqual([
      [1, 'looks'],
      [1, 'pain'],
    ])
    expect(
      await enter(patientId, rows, {
        answers: { volumeUnit: 'oz', temperatureUnit: 'F', dateOrder: 'month-first' },
      }),
    ).toMatchObject({ stored: true, reports: 1 })
    expect(await reports(patientId)).toMatchObject([
      { readings: [{ at: '2026-03-03T01:00:00.000Z', volumeMl: 354.9 }], symptoms: { temperatureC: 37.5 } },
    ])
  })

  it('refuses what was said already, here or in the record, a time to come and one before the drain', async () => {
    const { patientId, drain } = await patient(0, { placedAt: iso(-24) })
    await receiveReport(
      {
        clinicId: CLINIC,
        patientId,
        door: 'check-in',
        source: 'p',
        by: null,
        key: 'k',
        body: wellReport(drain, 24, 400),
      },
      at(24),
    )
    const { faults } = await enter(patientId, [
      ...week.slice(0, 1),
      ...week.slice(0, 1),
      row('2026-03-03', '01:00', { ml: '400' }),
      row('2026-04-02', '8:00', { ml: '300' }),
      row('2026-02-20', '8:00', { ml: '300' }),
      row('2026-03-03', '9:00', {}),
      row('2026-03-03', '9:30', { ml: '6000' }),
    ])
    expect(faults.map(({ row, column }) => [row, column])).toEqual([
      [2, null],
      [3, null],
      [4, 'date'],
      [5, 'date'],
      [6, null],
      [7, 'ml'],
    ])
    expect(faults[0]?.message).toContain('the same as row 1')
    expect(faults[1]?.message).toContain('in the record already')
  })

  it('takes a drain by its name, and says which there are', async () => {
    const { patientId, drain } = await patient()
    const { faults } = await enter(patientId, [
      row('2026-03-02', '18:00', { ml: '310', drain: 'right kidney' }),
    ])
    expect(faults).toMatchObject([{ column: 'drain', message: expect.stringContaining('1 (left kidney)') }])
    await enter(patientId, [row('2026-03-02', '18:00', { ml: '310', drain: 'Left Kidney' })])
    expect((await reports(patientId)).at(-1)?.readings).toMatchObject([{ drain }])
  })

  it('notices another patient’s name or record number, and stores nothing of the sheet', async () => {
    const own = await patient()
    const other = await patient()
    const numberOf = (id: string) => read((tx) => tx.patient.findUniqueOrThrow({ where: { id } }))
    const mine = await numberOf(own.patientId)
    const theirs = await numberOf(other.patientId)
    for (const cells of [
      { who: theirs.name },
      { who: theirs.recordNumber },
      { who: 'Nobody' },
      { note: theirs.recordNumber },
    ]) {
      const outcome = await enter(own.patientId, [
        ...week,
        row('2026-03-04', '8:00', { ml: '300', ...cells }),
      ])
      expect(outcome).toMatchObject({ stored: false, faults: [{ row: 4 }] })
      expect(outcome.faults[0]?.message).toContain(mine.recordNumber)
    }
    expect(await reports(own.patientId)).toEqual([])
    const named = week.map((cells, i) =>
      withCell(cells, 'who', i ? mine.recordNumber : mine.name.toUpperCase()),
    )
    expect(await enter(own.patientId, named)).toMatchObject({ stored: true })
  })

  it('of 5,000 rows, of another clinic or of no shape is refused in one sentence', async () => {
    const { patientId } = await patient()
    const many = Array.from({ length: 5000 }, () => week[0] as string[])
    await expect(enter(patientId, many)).rejects.toMatchObject({
      kind: 'invalid-input',
      detail: expect.stringContaining('5,000 rows; accepted: at most 500'),
    })
    await expect(enter(patientId, [])).rejects.toMatchObject({ kind: 'invalid-input' })
    await expect(enter(patientId, week, { staff: stranger })).rejects.toMatchObject({ kind: 'not-found' })
    await expect(enter(patientId, week, { staff: stranger, dry: true })).rejects.toMatchObject({
      kind: 'not-found',
    })
  })

  it('of 500 rows is taken', async () => {
    const { patientId } = await patient()
    const many = Array.from({ length: 500 }, (_, i) =>
      row('2026-03-03', `${String(Math.floor(i / 60)).padStart(2, '0')}:${String(i % 60).padStart(2, '0')}`, {
        ml: String(i),
      }),
    )
    expect(await enter(patientId, many, { by: 'day' })).toMatchObject({
      stored: true,
      rows: 500,
      reports: 10,
    })
  })
})
