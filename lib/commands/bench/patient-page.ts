import type { StaffMember } from '../../domain/staff.ts'
import { addClinic } from '../../store/clinics.ts'
import { snapshot, write } from '../../store/index.ts'
import { readPatientPage } from '../../worklist/index.ts'
import type { Figure } from '../evaluate/figures.ts'
import type { Progress } from '../evaluate/progress.ts'
import { withOwnStore } from './own-store.ts'
import { asOf, patient } from './patient.ts'
import { storePatient } from './patient-page-fill.ts'
import { type Statement, statementsOf } from './statements.ts'
import { type Contestant, millisecondsOf, ratioOf, type Turns, takeTurns } from './timing.ts'

/** Lengths of the compared records, in days, of four reports each. */
const SHORT = 10
const LONG = 400
/** Of 40 times the reports. A page that was just opened has those of 30 days: three times as many as the short one. */
const GROWTH_AIM = 2
const SQL_AIM = 2

const now = new Date(asOf)
const reader: StaffMember = {
  ...{ id: 'bench-reader', clinicId: 'bench', name: 'Reader (invented)', email: 'reader@bench.example' },
  role: 'nurse',
}

/**
 * What a patient's page costs the server, in processor time: with 400 days of reports against 10, and against the very
 * statements that it reads with, run raw over the same connection; and all 400 days, when they are asked for.
 */
export const measurePage = (turns: Turns, progress: Progress): Promise<Figure[]> =>
  withOwnStore(async (folder) => {
    await open()
    const short = await storePatient(
      reader,
      patient(1, { days: SHORT, standingDays: 0 }),
      'Short (invented)',
      now,
    )
    const long = await storePatient(
      reader,
      patient(1, { days: LONG, standingDays: 0 }),
      'Long (invented)',
      now,
    )
    const page = (id: string) => readPatientPage(reader, id, now, 'live', 'recent')
    const whole = (id: string) => readPatientPage(reader, id, now, 'live', 'whole')
    // The first read of a page writes that it was seen: what is measured is every one after it.
    await page(short)
    await page(long)
    const few = await statementsOf(folder, () => page(short))
    const statements = await statementsOf(folder, () => page(long))
    const all = await statementsOf(folder, () => whole(long))
    const contestants: Contestant[] = [
      { name: 'short', run: () => page(short) },
      { name: 'long', run: () => page(long) },
      { name: 'sql short', run: () => raw(few) },
      { name: 'sql', run: () => raw(statements) },
      { name: 'whole', run: () => whole(long) },
      { name: 'sql whole', run: () => raw(all) },
    ]
    const times = await takeTurns(contestants, turns, (done) => progress.at(done))
    progress.end()
    return [
      ratio('page-growth', ratioOf(times, 'long', 'short'), GROWTH_AIM),
      ratio('sql-growth', ratioOf(times, 'sql', 'sql short'), null),
      ratio('page-vs-sql', ratioOf(times, 'long', 'sql'), SQL_AIM),
      plain('page-10-days', millisecondsOf(times, 'short'), 'ms'),
      plain('page-400-days', millisecondsOf(times, 'long'), 'ms'),
      plain('page-whole-400-days', millisecondsOf(times, 'whole'), 'ms'),
      ratio('page-whole-vs-sql', ratioOf(times, 'whole', 'sql whole'), SQL_AIM),
      plain('page-statements', statements.length, 'statements'),
      plain('page-400-days-size', sizeOf(await page(long)), 'kB'),
      plain('page-whole-400-days-size', sizeOf(await whole(long)), 'kB'),
    ]
  })

async function open(): Promise<void> {
  await write(async (tx) => {
    const clinic = { id: reader.clinicId, name: 'Bench clinic (invented)', timeZone: 'America/Denver' }
    await addClinic(tx, { ...clinic, phone: '555-0100', afterHoursPhone: null, demo: true }, new Date(0))
    await tx.staff.create({ data: { ...reader, createdAt: new Date(0), updatedAt: new Date(0) } })
  })
}

const raw = (statements: readonly Statement[]) =>
  snapshot(async (tx) => {
    for (const { sql, values } of statements) await tx.$queryRawUnsafe(sql, ...values)
  })

const sizeOf = (answer: unknown) => JSON.stringify(answer).length / 1000

const three = (value: number) => Number(value.toPrecision(3))

function ratio(name: string, { value, low, high }: ReturnType<typeof ratioOf>, most: number | null): Figure {
  const aim = most === null ? null : `≤ ${most}`
  const holds = most === null ? null : value <= most
  return { name, value: three(value), unit: 'ratio', low: three(low), high: three(high), aim, holds }
}

const plain = (name: string, value: number, unit: string): Figure => ({
  ...{ name, value: three(value), unit },
  ...{ low: null, high: null, aim: null, holds: null },
})
