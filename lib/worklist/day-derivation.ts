import { recordAccess } from '../access/record.ts'
import { ruleSetAt } from '../assessment/rule-set.ts'
import { now as clock } from '../clock.ts'
import type { DayDerivation } from '../domain/day-derivation.ts'
import { LocalDate } from '../domain/instant.ts'
import { localDate } from '../domain/local-time.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { deriveDay } from '../rules/derive/day.ts'
import { snapshot, type Tx, write } from '../store/index.ts'
import { composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { isOfClinic } from './patient-of.ts'
import { isSameView } from './same-view.ts'

/**
 * How one local day's net output of one drain came about, as of now. It is part of the view of the patient's page.
 * @throws Refusal not-found, invalid-input
 */
export async function readDayDerivation(
  staff: StaffMember,
  patientId: string,
  drain: string,
  date: string,
  now: Date = clock(),
): Promise<DayDerivation> {
  const day = await snapshot((tx) => derive(tx, staff.clinicId, patientId, { drain, date }, now))
  if (!isSameView(staff.id, patientId, now))
    await write((tx) =>
      recordAccess(tx, {
        clinicId: staff.clinicId,
        at: stored(now),
        staffId: staff.id,
        actor: staff.name,
        action: 'view-patient',
        patientId,
        what: `opened how the output of ${date} was computed`,
      }),
    )
  return day
}

async function derive(
  tx: Tx,
  clinicId: string,
  patientId: string,
  asked: { drain: string; date: string },
  now: Date,
): Promise<DayDerivation> {
  await isOfClinic(tx, clinicId, patientId)
  const composed = await composeRecord(tx, patientId, now)
  const drain = composed?.record.drains.find(({ id }) => id === asked.drain)
  if (!composed || !drain) throw new Refusal('not-found', 'This patient has no such drain.')
  const { record, reports } = composed
  const first = localDate(drain.placedAt, record.timeZone)
  const last = localDate(now.getTime(), record.timeZone)
  const date = dateBetween(asked.date, first, last)
  const rules = await ruleSetAt(tx, clinicId, now)
  const day = deriveDay(record, rules, stored(now), drain.id, date)
  if (!day) throw new Refusal('not-found', 'This patient has no such drain.')
  const named = new Set(
    [...day.stretches.flatMap(({ readings, flushes }) => [...readings, ...flushes]), ...day.leftOut].map(
      ({ report }) => report,
    ),
  )
  const names = await staffNamesOf(tx, clinicId)
  return {
    ...day,
    asOf: stored(now),
    ruleSet: rules.version,
    timeZone: record.timeZone,
    reports: Object.fromEntries(
      reports
        .filter(({ id }) => named.has(id))
        .map(({ id, reporter, sentBy, enteredBy, supersedesId }) => [
          id,
          {
            reporter,
            sentBy,
            enteredBy: enteredBy === null ? null : (names.get(enteredBy) ?? enteredBy),
            corrects: supersedesId !== null,
          },
        ]),
    ),
  }
}

function dateBetween(text: string, first: LocalDate, last: LocalDate): LocalDate {
  const read = LocalDate.safeParse(text)
  if (read.success && text >= first && text <= last) return text
  const message = `accepted: a date from ${first}, when the drain was placed, to ${last}, today, such as ${last}`
  throw new Refusal('invalid-input', `The date is none of this drain’s days; ${message}.`, [
    { field: 'date', value: text, message },
  ])
}
