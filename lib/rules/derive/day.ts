import type { DerivedDay, DerivedGap, DerivedStretch, LeftOutReading } from '../../domain/day-derivation.ts'
import type { LocalDate } from '../../domain/instant.ts'
import type { PatientRecord } from '../../domain/record.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { drainOutput, filledItsBag } from '../drain-output.ts'
import { dayOf, dayStart, type LocalDay } from '../series/days.ts'
import { prepare, type ReadingValue, type Stated } from '../series/prepare.ts'
import { addShare } from '../series/spread.ts'
import { type Stretch, timeIsSuspect } from '../series/stretches.ts'
import { type DrainView, View } from '../series/view.ts'

const HOUR_MS = 3_600_000
const iso = (ms: number) => new Date(ms).toISOString()
const overlaps = (day: LocalDay, { start, end }: { start: number; end: number }) =>
  start < day.end && end > day.start

/**
 * How the net output of one drain on one local day came about: the stretches that fall in it, as the assessment has them.
 * @param now the instant, RFC 3339, as for `assess`
 * @returns null where the record has no such drain
 */
export function deriveDay(
  record: PatientRecord,
  rules: RuleSet,
  now: string,
  drainId: string,
  date: LocalDate,
): DerivedDay | null {
  const at = Date.parse(now)
  const view = new View(prepare(record, rules, at), at)
  const drain = view.drains.find(({ id }) => id === drainId)
  if (!drain) return null
  const zone = view.record.zone
  const day = dayOf(zone, dayStart(zone, date))
  const { all } = drain.output
  const within = all.filter((stretch) => overlaps(day, stretch))
  const stretches = within.map((stretch) => derived(drain, stretch, day))
  const span = {
    start: Math.min(day.start, ...within.map(({ start }) => start)),
    end: Math.max(day.end, ...within.map(({ end }) => end)),
  }
  return {
    drain: drainId,
    start: iso(day.start),
    end: iso(day.end),
    day: drainOutput(drain, at).days.find((one) => one.date === date) ?? {
      date,
      netMl: null,
      coverage: 0,
      hours: (day.end - day.start) / HOUR_MS,
    },
    completeFrom: drain.limits.completeCoverage,
    stretches,
    gaps: gapsOf(all, day, at),
    leftOut: leftOutOf(drain, span),
  }
}

function derived(drain: DrainView, stretch: Stretch, day: LocalDay): DerivedStretch {
  const { start, end, hours, volumeMl, flushedMl, netMl, missingFlushMl, coarse, overfull } = stretch
  const part = { ...day, netMl: 0, coverage: 0, hours: 0, from: [] }
  if (netMl !== null) addShare(part, stretch, 0)
  const from = Math.max(day.start, start)
  const to = Math.min(day.end, end)
  const suspicion = drain.output.suspicions.find((one) => one.stretch === stretch)
  return {
    from: iso(start),
    to: iso(end),
    hours,
    startsAt: startOf(drain, start),
    volumeMl,
    flushedMl,
    netMl,
    missingFlushMl,
    readings: stretch.readings.map((one) => ({
      ...heard(one),
      volumeMl: one.value.volumeMl,
      total: one.value.total,
      atLeast: filledItsBag(drain, { readings: [one] }),
    })),
    flushes: drain.view
      .seen(drain.facts.flushes)
      .filter((one) => one.at >= start && one.at < end)
      .map((one) => ({ ...heard(one), volumeMl: one.value })),
    inDay: {
      from: iso(from),
      to: iso(to),
      hours: (to - from) / HOUR_MS,
      netMl: netMl === null ? null : part.netMl,
    },
    atLeast: filledItsBag(drain, stretch),
    coarse,
    doubts: [
      ...(overfull ? [{ why: 'bag' as const, expectedMl: null }] : []),
      ...(suspicion ? [{ why: 'ounces' as const, expectedMl: suspicion.expectedMl }] : []),
    ],
  }
}

const heard = (one: Stated<unknown>) => ({
  report: one.report.id,
  at: iso(one.at),
  receivedAt: iso(one.receivedAt),
})

function startOf(drain: DrainView, start: number): DerivedStretch['startsAt'] {
  const { readings } = drain.facts
  if (drain.tube.starts.includes(start)) return 'tube'
  return drain.view.seen(readings).some(({ at }) => at === start) ? 'reading' : 'enrolment'
}

/** What of the day no stretch measures, in order of time. */
function gapsOf(all: readonly Stretch[], day: LocalDay, now: number): DerivedGap[] {
  const gaps: DerivedGap[] = []
  const add = (from: number, to: number, why: DerivedGap['why']) => {
    const [start, end] = [Math.max(from, day.start), Math.min(to, day.end)]
    if (start < end) gaps.push({ from: iso(start), to: iso(end), hours: (end - start) / HOUR_MS, why })
  }
  let known = Number.NEGATIVE_INFINITY
  for (const { start, end, netMl } of all) {
    add(known, start, known === Number.NEGATIVE_INFINITY ? 'before-first' : 'between')
    if (netMl === null) add(start, end, 'not-measured')
    known = Math.max(known, end)
  }
  add(known, now, known === Number.NEGATIVE_INFINITY ? 'before-first' : 'after-last')
  add(Math.max(known, now), Number.POSITIVE_INFINITY, 'to-come')
  return gaps
}

/** Readings told of the day and its stretches that enter none. */
function leftOutOf(drain: DrainView, span: { start: number; end: number }): LeftOutReading[] {
  const { facts, view, output } = drain
  const counted = new Set<Stated<ReadingValue>>(output.all.flatMap(({ readings }) => readings))
  const seen = new Set<Stated<ReadingValue>>(view.seen(facts.readings))
  const inSpan = (instant: number) => instant >= span.start && instant <= span.end
  return view
    .everStated(facts.readings)
    .filter((one) => !counted.has(one) && (inSpan(one.at) || inSpan(one.when)))
    .map((one) => ({
      ...heard(one),
      volumeMl: one.value.volumeMl,
      why: !seen.has(one) ? 'corrected' : reasonOf(drain, one),
    }))
}

const reasonOf = (drain: DrainView, one: Stated<ReadingValue>): LeftOutReading['why'] =>
  !timeIsSuspect(drain, one)
    ? 'covers-nothing'
    : one.at < drain.facts.placedAt
      ? 'before-placement'
      : 'after-receipt'
