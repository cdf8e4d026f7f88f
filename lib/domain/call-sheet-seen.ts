import type { DrainOutput } from './assessment.ts'
import { nameOf } from './call-sheet-drains.ts'
import { type Line, tie } from './call-sheet-line.ts'
import type { LocalDate } from './instant.ts'
import { isUrinary } from './kinds.ts'
import { dayMonth, weekday } from './local-time.ts'
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
    [who, ...loggedLine(drain.id, output)].filter((piece) => piece !== ''),
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

function loggedLine(drain: string, output: DrainOutput | undefined): Line {
  const days = (output?.days ?? []).slice(0, -1).slice(-DAYS)
  if (days.length === 0) return ['No complete day yet.']
  const complete = days.filter(({ netMl, coverage }) => netMl !== null && coverage >= 0.9).length
  const blank = days.filter(({ netMl }) => netMl === null).map(({ date }) => date)
  const logged = tie(`${complete} of the last ${days.length} days complete`, { to: 'timeline' })
  if (blank.length === 0) return [...logged, '.']
  if (blank.length > NAMED)
    return [...logged, '; ', ...tie(`${blank.length} not logged`, { to: 'timeline' }), '.']
  return [
    ...logged,
    '; not logged: ',
    ...blank.flatMap((date, i): Line => [...(i > 0 ? [', '] : []), ...dayPiece(date, drain)]),
    '.',
  ]
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
