import { beforeEach, describe, expect, it } from 'vitest'
import type { ImportProgress, LineFault } from '../../lib/domain/import-file.ts'
import { endFollowUp } from '../../lib/intake/follow-up.ts'
import { importReports } from '../../lib/intake/import-reports.ts'
import { listen } from '../../lib/notify/bus.ts'
import { read } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { recordStaffEvent } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const HEADER = 'record_number,drain,at,volume_ml,temperature_c,general'
const bytesOf = (text: string) => new TextEncoder().encode(text)
const numberOf = async (id: string) =>
  (await read((tx) => tx.patient.findUniqueOrThrow({ where: { id } }))).recordNumber
const take = (text: string, dryRun = false, hours = 48, staff = nurse) =>
  importReports(staff, { name: 'log.csv', bytes: bytesOf(text), dryRun }, () => undefined, at(hours))
const count = () => read((tx) => tx.report.count())

let id = ''
let drain = ''
let number = ''
beforeEach(async () => {
  const person = await patient()
  id = person.patientId
  drain = person.drain
  number = await numberOf(id)
})

describe('a file of reports', () => {
  it('is taken in whole, assessed, and told', async () => {
    const other = await patient()
    const heard: unknown[] = []
    const stop = listen(CLINIC, (change) => heard.push(change))
    const steps: ImportProgress[] = []
    const text = [
      HEADER,
      `${number},left kidney,2026-03-02 08:05,350,,`,
      `${number},1,2026-03-03T08:05:00-07:00,unknown,38.4,dizzy; vomiting`,
      `${await numberOf(other.patientId)},LEFT KIDNEY,2026-03-03 09:00,200,,none`,
    ].join('\r\n')
    const outcome = await importReports(
      nurse,
      { name: 'log.csv', bytes: bytesOf(text), dryRun: false },
      (step) => steps.push(step),
      at(48),
    )
    stop()
    expect(outcome).toEqual({
      dryRun: false,
      lines: 3,
      patients: 2,
      reports: 3,
      repeated: 0,
      faults: [],
      takenAt: null,
    })
    expect(heard).toEqual([
      { patientId: id, kind: 'report' },
      { patientId: other.patientId, kind: 'report' },
    ])
    expect(steps.filter(({ done, of }) => done === of).map(({ phase }) => phase)).toEqual([
      'parsed',
      'checked',
      'stored',
      'assessed',
    ])
    const composed = await read((tx) => composeRecord(tx, id, at(49)))
    expect(composed?.unreadable).toEqual([])
    expect(composed?.record.reports.map(({ receivedAt }) => receivedAt)).toEqual([iso(48), iso(48)])
    expect(
      composed?.record.reports.flatMap(({ readings }) => readings).map((one) => [one?.at, one?.volumeMl]),
    ).toEqual(
      expect.arrayContaining([
        ['2026-03-02T15:05:00.000Z', 350],
        ['2026-03-03T15:05:00.000Z', null],
      ]),
    )
    const report = await read((tx) => tx.report.findFirstOrThrow({ where: { patientId: id } }))
    expect(report).toMatchObject({
      door: 'import',
      source: 'import',
      reporter: 'system',
      enteredBy: nurse.id,
    })
    const flags = await read((tx) => tx.flag.findMany({ where: { patientId: id, state: 'open' } }))
    expect(flags.map(({ code }) => code)).toEqual(expect.arrayContaining(['infection-signs', 'unwell']))
    const noted = await read((tx) => tx.accessRecord.findMany({ where: { action: 'import-reports' } }))
    expect(noted.map(({ patientId }) => patientId)).toEqual([id, other.patientId, null])
    expect(noted.at(-1)?.what).toMatch(/3 reports of 2 patients/)
  })

  it('that is only looked at stores nothing', async () => {
    const text = `${HEADER}\n${number},1,2026-03-02 08:05,350,,\n`
    expect(await take(text, true)).toMatchObject({ dryRun: true, reports: 1, patients: 1 })
    expect(await count()).toBe(0)
    expect(await read((tx) => tx.accessRecord.count({ where: { action: 'import-reports' } }))).toBe(0)
  })

  it('adds nothing the second time, nor does what stands in another file again', async () => {
    const lines = [`${number},1,2026-03-02 08:05,350,,`, `${number},1,2026-03-03 08:05,360,,`]
    const text = [HEADER, ...lines, lines[0]].join('\n')
    expect(await take(text)).toMatchObject({ reports: 2, repeated: 1 })
    expect(await take(text)).toMatchObject({ reports: 0, takenAt: iso(48) })
    expect(await take(text, true)).toMatchObject({ reports: 0, takenAt: iso(48) })
    // The same instant in another writing, the drain by another name, the columns in another order.
    const again = [
      'at,record_number,volume_ml,drain',
      `2026-03-02T15:05:00Z,${number},350.0,left kidney`,
      `2026-03-04 08:05,${number},370,1`,
    ].join('\n')
    expect(await take(again, true, 100)).toMatchObject({ reports: 1, repeated: 1 })
    expect(await take(again, false, 100)).toMatchObject({ reports: 1, repeated: 1 })
    expect(await count()).toBe(3)
  })

  it('taken in twice at once is stored once', async () => {
    const text = `${HEADER}\n${number},1,2026-03-02 08:05,350,,\n`
    const outcomes = await Promise.all([take(text), take(text), take(text)])
    expect(outcomes.map(({ reports }) => reports).sort()).toEqual([0, 0, 1])
    expect(await count()).toBe(1)
  })

  it('is refused whole for one line, and every fault is named', async () => {
    const text = [
      HEADER,
      `${number},1,2026-03-02 08:05,350,,`,
      `nobody,1,2026-03-02 08:05,350,,`,
      `${number},3,3/2/2026 8:05,12 oz,98.6,sad`,
      `${number},,2026-03-02 08:05,350,,`,
      `${number},1,2026-03-02 08:05,,,`,
      `${number},1,2027-03-02 08:05,-3,,`,
      `${number},1,2020-03-02 08:05,6000,,`,
      `${number},1,2026-03-02 08:05,"12,5",,,`,
      `,,2026-02-30 08:05,,37.0,`,
      `${number},,46083.33,,37.0,`,
    ].join('\n')
    const { faults } = await take(text)
    const said = faults.map(
      ({ line, column, message }: LineFault) => `${line} ${column}: ${message.split(';')[0]}`,
    )
    expect(said).toEqual([
      '3 record_number: names no patient of this clinic',
      '4 volume_ml: has a unit',
      '4 temperature_c: looks like °F',
      expect.stringMatching(/^4 general: accepted: short-of-breath/),
      '4 drain: names no drain of this patient',
      expect.stringMatching(/^4 at: is a date as spreadsheet programs show it/),
      '5 drain: is missing, though the line speaks of one',
      '6 null: says nothing',
      '7 volume_ml: is out of range',
      '7 at: is later than now',
      '8 volume_ml: is over 5000 mL',
      '8 at: is before this drain was placed',
      '9 null: has 7 values',
      '9 volume_ml: has a comma',
      '10 record_number: is missing',
      '10 at: accepted: 2026-03-02 08:05 in the patient’s zone, or with an offset: 2026-03-02T08:05:00-07:00',
      '11 at: is a spreadsheet program’s own number for a date',
    ])
    expect(faults.every(({ message }) => /accepted|confirmed/.test(message))).toBe(true)
    expect(faults.find(({ column, line }) => column === 'drain' && line === 4)?.message).toContain(
      '1 (left kidney)',
    )
    expect(await count()).toBe(0)
  })

  it('reads every column', async () => {
    const text = [
      'record_number,drain,at,volume_ml,total,confirmed,appearance,flush_ml,flush_ease,dressing_changed,dressing_found,skin,temperature_c,chills,pain,position,leak,draining,general,note',
      `${number},1,2026-03-02 08:05,6000,yes,yes,clear,10,stiff,TRUE,damp,red,37.2,no,3,moved,no,yes,dizzy,"all, as ever"`,
    ].join('\n')
    expect((await take(text)).faults).toEqual([])
    const composed = await read((tx) => composeRecord(tx, id, at(49)))
    const when = '2026-03-02T15:05:00.000Z'
    expect(composed?.record.reports[0]).toMatchObject({
      readings: [{ drain, at: when, volumeMl: 6000, total: true, appearance: 'clear' }],
      flushes: [{ drain, at: when, volumeMl: 10, ease: 'stiff' }],
      dressings: [{ drain, at: when, found: 'damp', skin: 'red', changed: true }],
      symptoms: {
        at: when,
        temperatureC: 37.2,
        chills: false,
        pain: 3,
        general: ['dizzy'],
        drains: [{ drain, position: 'moved', leak: false, draining: true }],
      },
    })
    expect(composed?.reports[0]?.note).toBe('all, as ever')
  })

  it('names no patient of another clinic', async () => {
    const text = `${HEADER}\n${number},1,2026-03-02 08:05,350,,\n`
    expect((await take(text, false, 48, stranger)).faults).toMatchObject([
      { line: 2, column: 'record_number' },
    ])
  })

  it('brings back a patient whose follow-up has ended by what was after the end, not by what was before', async () => {
    const lookAgain = async () =>
      (await read((tx) => tx.patientState.findUniqueOrThrow({ where: { patientId: id } }))).lookAgainWhy
    await recordStaffEvent(nurse, id, { at: iso(24), drain, type: 'removed' }, 'e1', at(24))
    await endFollowUp(nurse, id, { reason: 'removed' }, 'f1', at(25))
    await take(`${HEADER}\n${number},1,2026-03-02 08:05,350,,\n`)
    expect(await lookAgain()).toBeNull()
    await take(`${HEADER}\n${number},,2026-03-03 20:00,,38.5,\n`, false, 49)
    expect(await lookAgain()).toMatch(/after follow-up ended/)
  })
})

describe('a file that cannot be read', () => {
  it.each([
    ['nothing', '', /is empty/],
    ['semicolons', 'record_number;at\nLF-1;2026-03-02 08:05', /semicolons; accepted: commas/],
    ['a workbook', 'PK\u0003\u0004', /workbook/],
    ['an unknown column', 'record_number,at,weight\n', /is no column of this file; accepted: record_number/],
    ['a missing column', 'record_number,volume_ml\n', /is missing in the header/],
    ['a column twice', 'record_number,at,at\n', /stands twice/],
    ['a quote that never ends', 'record_number,at\nLF-1,"2026', /cannot be read as CSV/],
  ])('for %s says so', async (_name, text, message) => {
    const { faults, reports } = await take(text)
    expect(faults[0]?.message).toMatch(message)
    expect(reports).toBe(0)
  })

  it('for another encoding says so', async () => {
    const latin = new Uint8Array([...bytesOf('record_number,at,note\nLF-1,2026-03-02 08:05,'), 0xe9])
    const outcome = await importReports(nurse, { name: 'x', bytes: latin, dryRun: true }, undefined, at(48))
    expect(outcome.faults[0]?.message).toMatch(/not UTF-8/)
  })

  it('counts lines as an editor does: a byte order mark, empty lines and a value over two lines', async () => {
    const text = `\uFEFF${HEADER},note\r\n\r\n${number},1,2026-03-02 08:05,350,,,"one\ntwo"\r\nx,1,2026-03-02 08:05,1,,,\r\n`
    expect((await take(text)).faults).toMatchObject([{ line: 5, column: 'record_number', value: 'x' }])
  })

  it('for a line too many says so', async () => {
    const text = `record_number,at,pain\n${`${number},2026-03-02 08:05,1\n`.repeat(20_001)}`
    const { faults, lines } = await take(text, true)
    expect([lines, faults]).toMatchObject([0, [{ line: 20_002, message: expect.stringContaining('20000') }]])
    expect(
      (await take(text.slice(0, text.length - 1 - `${number},2026-03-02 08:05,1`.length), true)).faults,
    ).toEqual([])
  })
})
