import { parse } from 'csv-parse/sync'
import { beforeEach, describe, expect, it } from 'vitest'
import { enrol, receiveReport } from '../../../lib/intake/index.ts'
import { read } from '../../../lib/store/index.ts'
import { eventTable } from '../../../lib/worklist/export/event-table.ts'
import { exportCsv } from '../../../lib/worklist/export/export-csv.ts'
import { recordCallback } from '../../../lib/worklist/index.ts'
import { page } from '../../app/fixtures/page.ts'
import { at, CLINIC, enrolment, iso, nurse, openClinics, patient, stranger } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const rowsOf = async (...call: Parameters<typeof exportCsv>) =>
  parse((await exportCsv(...call)).body, { bom: true, columns: true }) as Record<string, string>[]

const send = (patientId: string, key: string, hours: number, body: object) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'phone-in', source: nurse.id, by: nurse.id, key, body },
    at(hours),
  )

/** A week of readings and flushes of one drain, one of them corrected, over the change of the clocks on 8 March. */
async function week(patientId: string, drain: string): Promise<void> {
  for (let day = 1; day <= 7; day++) {
    const said = await send(patientId, `k${day}`, 24 * day + 1, {
      readings: [{ drain, at: iso(24 * day), volumeMl: 311 + 7 * day, appearance: 'clear' }],
      flushes: [{ drain, at: iso(24 * day + 0.2), volumeMl: 10, ease: 'easy' }],
    })
    if (day === 3)
      await send(patientId, 'correction', 24 * day + 2, {
        readings: [{ drain, at: iso(24 * day), volumeMl: 33 }],
        supersedes: said.report,
      })
  }
}

describe('the events of a page', () => {
  it('hold what was asked in a call with its answer, and each drain’s name', () => {
    const [call] = page().callbacks
    if (!call) throw new Error('the fixture has a call')
    const asked = [
      { code: 'leak' as const, drain: 'd1', question: 'Wet around the tube?', answer: 'no' },
      { code: 'leak' as const, drain: null, question: 'Temperature now?', answer: '' },
    ]
    const { names, rows } = eventTable(page({ callbacks: [{ ...call, asked }] }))
    const told = rows
      .map((row) => Object.fromEntries(names.map((name, i) => [name, row[i]])))
      .filter(({ what }) => what === 'asked')
      .map(({ drain, value, detail }) => [drain, value, detail])
    expect(told).toEqual([
      ['left kidney', 'no', 'Wet around the tube?'],
      [null, null, 'Temperature now?'],
    ])
  })
})

describe('the days as CSV', () => {
  it('add up to what the store holds: readings that count less flushes given before the last of them', async () => {
    const { patientId, drain } = await patient()
    await week(patientId, drain)
    const rows = await rowsOf(nurse, patientId, 'days', at(200))
    const [sums] = await read(
      (tx) => tx.$queryRaw<{ net: number }[]>`
        SELECT (SELECT SUM(r."volumeMl") FROM "Reading" r WHERE r."patientId" = ${patientId} AND r."reportId" NOT IN
                  (SELECT "supersedesId" FROM "Report" WHERE "supersedesId" IS NOT NULL))
             - (SELECT SUM(f."volumeMl") FROM "Flush" f WHERE f."patientId" = ${patientId} AND f."reportId" NOT IN
                  (SELECT "supersedesId" FROM "Report" WHERE "supersedesId" IS NOT NULL)
                  AND f."at" < (SELECT MAX("at") FROM "Reading" WHERE "patientId" = ${patientId})) AS "net"`,
    )
    expect(rows.reduce((sum, { net_ml }) => sum + Number(net_ml), 0)).toBeCloseTo(Number(sums?.net), 6)
    expect(rows.map(({ date }) => date)).toEqual(
      Array.from({ length: 9 }, (_, i) => `2026-03-${String(i + 2).padStart(2, '0')}`),
    )
    expect(rows.find(({ date }) => date === '2026-03-08')?.day_hours).toBe('23')
    expect(rows.at(-1)).toMatchObject({ net_ml: '', coverage: '0', complete: '', birth_date: '1960-05-17' })
  })

  it('stands in the access record, and is refused to another clinic', async () => {
    const { patientId } = await patient()
    await exportCsv(nurse, patientId, 'days', at(1))
    await exportCsv(nurse, patientId, 'events', at(1))
    await expect(exportCsv(stranger, patientId, 'days', at(1))).rejects.toMatchObject({ kind: 'not-found' })
    const kept = await read((tx) =>
      tx.accessRecord.findMany({ where: { action: 'export-patient' }, orderBy: { seq: 'asc' } }),
    )
    expect(kept.map(({ staffId, patientId: of, what }) => [staffId, of, what])).toEqual([
      [nurse.id, patientId, 'exported the days as CSV: 0 rows'],
      [nurse.id, patientId, 'exported the events as CSV: 2 rows'],
    ])
  })
})

describe('the events as CSV', () => {
  it('hold what was said and done, each with when, what and by whom; what was corrected as corrected', async () => {
    const { patientId, drain } = await patient()
    await week(patientId, drain)
    await recordCallback(nurse, patientId, { outcome: 'no-answer', note: '=rang out' }, 'c', at(190))
    const rows = await rowsOf(nurse, patientId, 'events', at(200))
    const readings = rows.filter(({ what }) => what === 'reading')
    expect(readings.map(({ value }) => Number(value))).toEqual([318, 325, 33, 339, 346, 353, 360])
    expect(readings[0]).toMatchObject({ drain: 'left kidney', unit: 'mL', at: '2026-03-03T01:00:00-07:00' })
    expect(readings[6]?.at).toBe('2026-03-09T02:00:00-06:00')
    expect(rows.filter(({ what }) => what === 'flush')).toHaveLength(6)
    const call = rows.find(({ what }) => what === 'call')
    expect(call).toMatchObject({ value: 'No answer', by: nurse.name })
    // As a formula it would be run by a spreadsheet.
    expect(call?.detail).toBe("'=rang out")
    expect(rows.some(({ what, value }) => what === 'event' && value === 'Placed')).toBe(true)
  })

  it('keep a name of any script', async () => {
    const name = 'Łucja Żółć, 山田 "דנה"'
    const { patientId } = await enrol(nurse, enrolment({ name }), 'any', at(0))
    expect((await rowsOf(nurse, patientId, 'events', at(1)))[0]?.name).toBe(name)
  })
})
