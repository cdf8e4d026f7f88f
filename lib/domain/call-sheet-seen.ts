import type { DrainOutput } from './assessment.ts'
import { cappedSince, nameOf } from './call-sheet-drains.ts'
import { type Line, tie } from './call-sheet-line.ts'
import { isComplete } from './day-limit.ts'
import type { LocalDate } from './instant.ts'
import { isUrinary } from './kinds.ts'
import { addDays, dayMonth, daysBetween, localDate, weekday } from './local-time.ts'
import type { PatientPage } from './patient-page.ts'
import type { Drain } from './record.ts'

/** Days that the sheet looks back on. */
const DAYS = 14
/** Missing days that are named; more are counted. */
const NAMED = 3

/** What the rules see of a drain, and what they cannot: days that are missing, suspect readings, a usual that is not known. */
export function seenLines(page: PatientPage, drain: Drain, several: boolean): Line[] {
  const output = page.assessment.drains.find((one) => one.drain === drain.id)
  const who = several ? `${nameOf(page, drain.id)}: ` : ''
  return [
    [who, ...loggedLine(page, drain, output)].filter((piece) => piece !== ''),
    ...(output?.baselineFrom === 'ward'
      ? [[`${who}The usual output is the ward’s figure, provisional.`]]
      : []),
    ...(output?.cannotTell ?? []).map((text) => tie(who + text, { to: 'timeline' })),
    ...suspectLines(page, drain.id, who),
    ...(output?.projection ? [projected(output.projection, who)] : []),
    [
      isUrinary(drain.kind) && !drain.onlyKidney
        ? `${who}The rules cannot see the other kidney, nor any blood test.`
        : `${who}The rules cannot see any blood test or image.`,
    ],
  ]
}

/** How much is known of the whole days that it was to be logged on: those before the first reading are among them. */
function loggedLine(page: PatientPage, drain: Drain, output: DrainOutput | undefined): Line {
  const { id } = drain
  const { timeZone: zone } = page.record
  const known = new Map((output?.days ?? []).map((day) => [day.date, day]))
  const days = wholeDays(page, drain)
  if (days.length === 0) return ['No whole day yet.']
  const capped = cappedSince(page, drain)
  const isDue = (date: LocalDate) => capped === null || date < localDate(capped, zone)
  const isBlank = (date: LocalDate) => (known.get(date)?.netMl ?? null) === null
  const complete = days.filter(
    (date) => !isBlank(date) && isComplete(known.get(date)?.coverage ?? 0, page.limits),
  ).length
  const blank = days.filter((date) => isBlank(date) && isDue(date))
  const logged = tie(
    `${complete} of the last ${days.length === 1 ? '1 day' : `${days.length} days`} complete`,
    { to: 'timeline' },
  )
  if (blank.length === 0) return [...logged, '.']
  if (blank.length > NAMED)
    return [...logged, '; ', ...tie(`of ${blank.length} no output is known`, { to: 'timeline' }), '.']
  return [
    ...logged,
    '; no output known: ',
    ...blank.flatMap((date, i): Line => [...(i > 0 ? [', '] : []), ...dayPiece(date, id)]),
    '.',
  ]
}

/** The last days that are over and were whole ones in our care, the earliest first. */
function wholeDays({ record, asOf }: PatientPage, { placedAt }: Drain): LocalDate[] {
  const { timeZone: zone, enrolledAt } = record
  const from = Date.parse(placedAt) > Date.parse(enrolledAt) ? placedAt : enrolledAt
  const today = localDate(asOf, zone)
  const count = Math.min(DAYS, Math.max(0, daysBetween(localDate(from, zone), today) - 1))
  return Array.from({ length: count }, (_, i) => addDays(today, i - count))
}

const dayPiece = (date: LocalDate, drain: string): Line => [
  { text: `${weekday(date)} ${dayMonth(date)}`, on: { to: 'day', drain, date } },
]

/** Readings that are kept and shown, and enter no usual output. */
function suspectLines({ flags }: PatientPage, drain: string, who: string): Line[] {
  return flags
    .filter((flag) => flag.code === 'reading-suspect' && flag.state === 'open' && flag.drain === drain)
    .map(({ id, finding }) =>
      tie(`${who}Suspect, left out of the usual: ${finding.says}`, { to: 'basis', flag: id }),
    )
}

/** A date that is worked out, with how far it may be off. */
function projected({ date, earliest, latest }: NonNullable<DrainOutput['projection']>, who: string): Line {
  const range = latest
    ? `${dayMonth(earliest)} to ${dayMonth(latest)}`
    : `${dayMonth(earliest)} or later, open-ended`
  return [
    `${who}If it goes on as it did, the removal threshold is met about `,
    ...tie(`${dayMonth(date)} (95% interval ${range})`, { to: 'timeline' }),
    '.',
  ]
}
