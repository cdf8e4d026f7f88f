import type {
  DayDerivation,
  DerivedGap,
  DerivedStretch,
  LeftOutReading,
} from '@/lib/domain/day-derivation.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { reporterLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'

/** To a tenth: a part of a stretch is seldom a whole mL. */
export const mL = (volume: number): string => String(Math.round(volume * 10) / 10)
export const hoursText = (hours: number): string => String(Math.round(hours * 100) / 100)

/** What a day came to, in one sentence. */
export function sumText({ day, completeFrom, asOf, end }: DayDerivation): string {
  if (day.netMl === null) return 'Nothing of this day is known. Unknown is not zero.'
  const least = day.atLeast ? 'at least ' : ''
  const known = `over ${hoursText(day.coverage * day.hours)} of its ${hoursText(day.hours)} h`
  const isOver = Date.parse(end) <= Date.parse(asOf)
  const kind =
    day.coverage >= completeFrom
      ? 'a complete day'
      : isOver
        ? `known in part (${Math.round(day.coverage * 100)}%)`
        : 'so far'
  return `Net ${least}${mL(day.netMl)} mL ${known}: ${kind}.`
}

const starts: Readonly<Record<DerivedStretch['startsAt'], string>> = {
  reading: 'the emptying before',
  tube: 'a new tube or an uncapping',
  enrolment: 'enrolment',
}

/** What is to be minded of a stretch, a sentence each. */
export function marksOf(stretch: DerivedStretch): string[] {
  const { startsAt, netMl, atLeast, coarse, doubts, missingFlushMl, flushes, hours } = stretch
  return [
    ...(startsAt === 'reading' ? [] : [`Begins at ${starts[startsAt]}.`]),
    ...(netMl === null ? ['Could not be measured: its hours are unknown.'] : []),
    ...(atLeast ? ['The vessel was full: at least this much.'] : []),
    ...(coarse
      ? [`${hoursText(hours)} h is too long to say on which day it came: it enters no usual output.`]
      : []),
    ...doubts.map(({ why, expectedMl }) =>
      why === 'bag'
        ? 'In doubt: more than the vessel can have held. It enters no usual output.'
        : `In doubt: ounces and millilitres may be mixed up; about ${mL(expectedMl ?? 0)} mL was to be expected. It enters no usual output.`,
    ),
    ...(flushes.some(({ volumeMl }) => volumeMl === null)
      ? ['A flush of unknown volume is not subtracted.']
      : []),
    ...(missingFlushMl > 0
      ? [
          `Ordered flushes of ${mL(missingFlushMl)} mL were due and not recorded; nothing is subtracted for them.`,
        ]
      : []),
    ...(sameTime(stretch) ? ['Several readings at one time: equal volumes count once.'] : []),
  ]
}

const sameTime = ({ readings }: DerivedStretch) => readings.length > 1

export const gapLabels: Readonly<Record<DerivedGap['why'], string>> = {
  'before-first': 'before the first stretch',
  'not-measured': 'emptied, but not measured',
  between: 'before a new tube or an uncapping',
  'after-last': 'after the last reading',
  'to-come': 'still to come',
}

const leftOutLabels: Readonly<Record<LeftOutReading['why'], string>> = {
  corrected: 'corrected by a later report',
  'after-receipt': 'its time is later than its receipt',
  'before-placement': 'its time is before the drain was placed',
  'covers-nothing': 'it stands at the very beginning and covers no time',
}

type Line = { key: string; at: Instant; text: string; from: string }

/** Everything that was reported of the stretches, in order of time, with who said it and when it came. */
export function reportedLines({ stretches, reports, timeZone }: DayDerivation): Line[] {
  const lines = stretches.flatMap(({ readings, flushes }) => [
    ...readings.map(({ volumeMl, total, atLeast, ...one }) => ({
      ...one,
      text: `${volumeMl === null ? 'emptied, could not measure' : `emptied ${atLeast ? 'at least ' : ''}${mL(volumeMl)} mL`}${total ? ', the sum of several' : ''}`,
    })),
    ...flushes.map(({ volumeMl, ...one }) => ({
      ...one,
      text: `flushed ${volumeMl === null ? 'an unknown volume' : `${mL(volumeMl)} mL`}`,
    })),
  ])
  return lines
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .map((one, i) => ({
      key: `${one.report} ${i}`,
      at: one.at,
      text: one.text,
      from: fromText(one, reports, timeZone),
    }))
}

/** Readings that enter nothing, and why. */
export const leftOutLines = ({ leftOut, reports, timeZone }: DayDerivation): Line[] =>
  leftOut.map((one, i) => ({
    key: `${one.report} ${i}`,
    at: one.at,
    text: `${one.volumeMl === null ? 'could not measure' : `${mL(one.volumeMl)} mL`}: ${leftOutLabels[one.why]}`,
    from: fromText(one, reports, timeZone),
  }))

function fromText(
  { report, receivedAt }: { report: string; receivedAt: Instant },
  reports: DayDerivation['reports'],
  zone: string,
): string {
  const about = reports[report]
  const who = about
    ? [
        about.corrects ? 'a correction' : null,
        reporterLabels[about.reporter],
        about.sentBy,
        about.enteredBy ? `entered by ${about.enteredBy}` : null,
      ]
        .filter(Boolean)
        .join(', ')
    : 'not known who'
  return `${who}; received ${dayAndTime(receivedAt, zone)}`
}
