import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { FigureName, type FiguresPage, type PatientsBehind, Period } from '../../domain/figures.ts'
import { daysBetween } from '../../domain/local-time.ts'
import { faultsOf, Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { patientNames } from '../../store/audit-names.ts'
import { clinicById } from '../../store/clinics.ts'
import { read as readOnly, snapshot, type Tx, write } from '../../store/index.ts'
import { stored } from '../../store/rows.ts'
import { factsOf } from './facts.ts'
import { makeAll } from './figures.ts'
import { primaryWithin } from './primary.ts'
import { lastWeeks } from './weeks.ts'

/** How many weeks are shown where none are named. */
const WEEKS = 8
/** The longest period that is counted at once: half a year of weeks. */
const MOST_DAYS = 184
/** How many patients behind a figure are named at once. */
const MOST_PATIENTS = 200

/** What is asked for in an address, each as it was typed, or null: days, or the last so many whole weeks. */
export type Asked = { from: string | null; until: string | null; weeks: string | null }

/**
 * The figures as their screen reads them; without a period those of the last eight whole weeks.
 * @throws Refusal invalid-input, not-found
 */
export async function readFigures(
  staff: StaffMember,
  asked: Asked,
  now: Date = clock(),
): Promise<FiguresPage> {
  const { clinic, period, facts, primary } = await snapshot(async (tx) => {
    const { clinic, period } = await periodOf(tx, staff, asked, now)
    const facts = await factsOf(tx, staff.clinicId, period, now)
    const last = facts.weeks.at(-1)?.monday ?? period.from
    return { clinic, period, facts, primary: await primaryWithin(tx, staff.clinicId, last, now) }
  })
  // Counted after the snapshot: others wait for theirs.
  return {
    asOf: stored(now),
    clinic,
    ...period,
    ...primary,
    figures: makeAll(facts).map(({ figure }) => ({ ...figure, patients: figure.patients.length })),
    unreadable: facts.unreadable,
  }
}

/**
 * Who stands behind a figure, or one of its parts, those in the numerator first; entered in the access record as seen.
 * @throws Refusal invalid-input, not-found
 */
export async function readBehind(
  staff: StaffMember,
  asked: Asked & { figure: string | null; part: string | null },
  now: Date = clock(),
): Promise<PatientsBehind> {
  const figure = FigureName.safeParse(asked.figure)
  if (!figure.success)
    throw new Refusal('invalid-input', 'There is no such figure.', [
      { field: 'figure', value: asked.figure, message: `accepted: ${FigureName.options.join(', ')}` },
    ])
  const { clinicId } = staff
  const { period, facts } = await snapshot(async (tx) => {
    const { period } = await periodOf(tx, staff, asked, now)
    return { period, facts: await factsOf(tx, clinicId, period, now) }
  })
  const made = makeAll(facts).find((one) => one.figure.name === figure.data)
  const all = made?.behind(asked.part) ?? []
  const shown = all.slice(0, MOST_PATIENTS)
  const ids = shown.map(({ patient }) => patient)
  const names = await readOnly((tx) => patientNames(tx, clinicId, ids))
  const page: PatientsBehind = {
    figure: figure.data,
    ...period,
    all: all.length,
    patients: shown.flatMap(({ patient, isCounted }) => {
      const known = names.get(patient)
      return known ? [{ ...known, isCounted }] : []
    }),
  }
  await write((tx) =>
    recordAccess(tx, {
      clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      role: staff.role,
      action: 'view-figure',
      patientId: null,
      what: `saw behind the figure ${figure.data}${asked.part ? ` (${asked.part})` : ''} of ${page.from} to ${page.until}: ${page.patients.map(({ patientId }) => patientId).join(' ')}`,
    }),
  )
  return page
}

async function periodOf(tx: Tx, { clinicId }: StaffMember, { from, until, weeks }: Asked, now: Date) {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  if (weeks !== null && !/^([1-9]|1\d|2[0-6])$/.test(weeks))
    throw new Refusal('invalid-input', 'The period is not as it is accepted.', [
      { field: 'weeks', value: weeks, message: 'accepted: 1 to 26' },
    ])
  const usual = lastWeeks(now, clinic.timeZone, weeks === null ? WEEKS : Number(weeks))
  const input = { from: from ?? usual.from, until: until ?? usual.until }
  const read = Period.safeParse(input)
  if (!read.success)
    throw new Refusal('invalid-input', 'The period is not as it is accepted.', faultsOf(read.error, input))
  const days = daysBetween(read.data.from, read.data.until)
  if (days < 1 || days > MOST_DAYS)
    throw new Refusal('invalid-input', 'The period is not as it is accepted.', [
      { field: 'until', value: input.until, message: `accepted: 1 to ${MOST_DAYS} days after the first` },
    ])
  const { name, timeZone, demo } = clinic
  return { clinic: { name, timeZone, demo }, period: read.data }
}
