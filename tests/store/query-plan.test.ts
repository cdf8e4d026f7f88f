import { readFileSync } from 'node:fs'
import path from 'node:path'
import Database from 'better-sqlite3'
import { beforeEach, expect, it, vi } from 'vitest'
import {
  changeOrders,
  checkInView,
  countWaiting,
  editPatient,
  exchangeLink,
  readAlike,
  readDischarges,
  readOrderTemplates,
  receiveReport,
  systemByKey,
  takeDischargeFile,
  undoOrders,
} from '../../lib/intake/index.ts'
import { closeStore } from '../../lib/store/index.ts'
import { openHandover, stepHandover } from '../../lib/worklist/handover.ts'
import {
  correctCallback,
  readPatientPage,
  readWorklist,
  recordCallback,
  recordStaffEvent,
  sweep,
  takeRow,
  undoCallback,
  undoStaffEvent,
} from '../../lib/worklist/index.ts'
import { readNumbers } from '../../lib/worklist/numbers.ts'
import { readHandover } from '../../lib/worklist/read-handover.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, wellReport } from './clinic.ts'
import { databasePerTest } from './database.ts'

const database = databasePerTest()
beforeEach(openClinics)

/** What every open worklist, every check-in, every report and every sweep asks. */
async function aMorning(): Promise<void> {
  const { patientId, drain, link } = await patient()
  const { session } = await exchangeLink(link.split('#')[1] ?? '', at(1))
  await checkInView(session, at(1))
  const body = { ...wellReport(drain, 24), flushes: [{ drain, at: iso(24), volumeMl: 10 }] }
  const send = (key: string, hours: number, says: unknown) =>
    receiveReport(
      { clinicId: CLINIC, patientId, door: 'check-in', source: 's', by: null, key, body: says },
      at(hours),
    )
  const { report } = await send('k1', 24, body)
  await send('k2', 25, { ...body, supersedes: report })
  await systemByKey('no such key')
  await sweep(at(90))
  await takeRow(nurse, patientId, at(91))
  const { callback } = await recordCallback(nurse, patientId, { outcome: 'no-answer' }, 'n', at(91))
  const { rows } = await readWorklist(nurse, at(91))
  const closes = rows.flatMap(({ flags }) => flags.map(({ id }) => id))
  await recordCallback(
    nurse,
    patientId,
    { outcome: 'reached', spokenTo: 'patient', agreed: ['self-care'], closes, lookAgainAt: iso(99) },
    'c',
    at(92),
  )
  await undoCallback(nurse, patientId, callback, at(91)).catch(() => null)
  await correctCallback(
    nurse,
    patientId,
    callback,
    { outcome: 'left-message', why: 'heard later' },
    'x',
    at(92),
  )
  const event = { at: iso(92), drain, type: 'exchanged' }
  const { event: recorded } = await recordStaffEvent(nurse, patientId, event, 'e', at(92))
  await undoStaffEvent(nurse, patientId, recorded, at(92.01))
  const { version } = await changeOrders(nurse, patientId, drain, { why: 'w', logEveryHours: 8 }, 'o', at(92))
  await undoOrders(nurse, patientId, drain, version, at(92.01))
  await readPatientPage(nurse, patientId, at(93))
  await readPatientPage(nurse, patientId, at(93), 'live', 'recent')
  await readAlike(nurse, { name: 'Ada Invented', birthDate: '1960-05-17' }, at(94))
  await editPatient(nurse, patientId, { phone: '+1 555 0142', why: 'new number' }, 'd', at(94))
  const csv = 'record_number,name,birth_date,discharged_at\nF-1,Ada Fern,1950-01-02,2026-02-28'
  await takeDischargeFile(nurse, { csv, dryRun: false }, at(94))
  await readDischarges(nurse, at(94))
  await countWaiting(nurse)
  await readOrderTemplates(nurse)
  const { handover } = await openHandover(nurse, {}, 'h', at(95))
  await stepHandover(nurse, handover, { step: 'sign' }, 'g', at(95))
  await readHandover(nurse, at(95))
  await readNumbers(nurse, at(95))
}

it('no query of a morning reads a whole table', async () => {
  await closeStore()
  const log = path.join(database.folder, 'queries.log')
  vi.stubEnv('OUTFLOW_TEST_MODE', '1')
  vi.stubEnv('OUTFLOW_QUERY_LOG', log)
  await aMorning()
  await closeStore()

  const lines = readFileSync(log, 'utf8').trim().split('\n')
  const queries = new Map(
    lines
      .map((line) => JSON.parse(line) as { sql: string; params: string })
      .map((query) => [query.sql, query]),
  )
  expect(queries.size).toBeGreaterThan(40)
  const db = new Database(database.file, { readonly: true })
  const scans: string[] = []
  for (const { sql } of queries.values()) {
    if (!/^\s*(SELECT|UPDATE|DELETE|WITH)/i.test(sql)) continue
    const blanks = Array((sql.match(/\?/g) ?? []).length).fill(null)
    const plan = db.prepare(`EXPLAIN QUERY PLAN ${sql}`).all(...blanks) as { detail: string }[]
    // A sub-query's own few rows, or those that the query brings, may be walked; a table may not.
    scans.push(
      ...plan
        .filter(({ detail }) => /^SCAN (?!w\b|json_each\b|\d+ CONSTANT|CONSTANT|\(|SUBQUERY)/.test(detail))
        .map(({ detail }) => `${detail}: ${sql.slice(0, 160)}`),
    )
  }
  db.close()
  expect(scans).toEqual([])
})
