import { FindingCode, Urgency } from '../../domain/words.ts'
import { wilson } from '../../rules/statistics/wilson.ts'
import { TRUE_EVENT_TYPES } from '../../simulate/index.ts'
import type { PanelName } from './panels.ts'
import { type Estimate, quantileOf, ratioOf, resampled } from './resample.ts'
import { ways } from './simple-ways.ts'
import type { EventTally, Tally } from './tally.ts'

/** One measured number, as all measuring commands print it. */
export type Figure = {
  readonly name: string
  readonly value: number | null
  readonly unit: string
  readonly low: number | null
  readonly high: number | null
  readonly aim: string | null
  readonly holds: boolean | null
}
type Aim = { readonly aim: string; readonly holds: (value: number) => boolean }

const round = (value: number | null) =>
  value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(4))
export const figure = (name: string, unit: string, { value, low, high }: Estimate, aim?: Aim): Figure => ({
  name,
  value: round(value),
  unit,
  low: round(low),
  high: round(high),
  aim: aim?.aim ?? null,
  holds: aim && value !== null ? aim.holds(value) : null,
})

function share(successes: number, trials: number): Estimate {
  const interval = wilson(successes, trials)
  return interval.enough
    ? { value: interval.share, low: interval.low, high: interval.high }
    : { value: null, low: null, high: null }
}

const withEvents = (tallies: readonly Tally[]) => tallies.filter(({ task }) => !task.eventFree)
const panel = (tallies: readonly Tally[], name: PanelName) =>
  tallies.filter(({ task }) => task.panel === name)
const PANELS = ['80%', '56%', '39%'] as const

/** How often and how soon true events are flagged, all panels together and each on its own. */
export function eventFigures(tallies: readonly Tally[]): Figure[] {
  return TRUE_EVENT_TYPES.flatMap((type) => {
    const judged = (tally: Tally) => tally.events.filter((event) => event.type === type && event.judged)
    const all = withEvents(tallies)
    const sensitivity = (of: readonly Tally[]) => {
      const events = of.flatMap(judged)
      return share(events.filter(found).length, events.length)
    }
    const delays = (tally: Tally) =>
      judged(tally).flatMap(({ foundAfterHours }) => (foundAfterHours === null ? [] : [foundAfterHours]))
    return [
      figure(`events.${type}`, 'events', { value: all.flatMap(judged).length, low: null, high: null }),
      figure(`sensitivity.${type}`, 'share', sensitivity(all)),
      ...(type === 'recovery' || type === 'silence'
        ? []
        : [figure(`heard.${type}`, 'share', heard(all.flatMap(judged)))]),
      ...PANELS.map((name) => figure(`sensitivity.${type}.${name}`, 'share', sensitivity(panel(all, name)))),
      figure(`delay-median.${type}`, 'h', resampled(all, quantileOf(0.5, delays), `median ${type}`)),
      figure(`delay-p90.${type}`, 'h', resampled(all, quantileOf(0.9, delays), `p90 ${type}`)),
    ]
  })
}
/** A flag or the patient's own call, whichever was first, before a visit found it. */
const heard = (events: readonly EventTally[]) =>
  share(events.filter((event) => heardAfter(event) !== null).length, events.length)
const heardAfter = ({ foundAfterHours, ownCallAfterHours }: EventTally) =>
  foundAfterHours ?? ownCallAfterHours
const found = ({ foundAfterHours }: EventTally) => foundAfterHours !== null

/** How often a flag is right, and how many are not. */
export function findingFigures(tallies: readonly Tally[]): Figure[] {
  const all = withEvents(tallies)
  return FindingCode.options.flatMap((code) => {
    const opened = (tally: Tally) => tally.flags[code]?.opened ?? 0
    const right = (tally: Tally) => tally.flags[code]?.right ?? 0
    const flags = all.reduce((sum, tally) => sum + opened(tally), 0)
    if (flags === 0) return []
    const counts = figure(`flags.${code}`, 'flags', { value: flags, low: null, high: null })
    if (UPKEEP.has(code))
      return [
        counts,
        figure(
          `flags-rate.${code}`,
          'per 100 patient-days',
          resampled(all, ratioOf(opened, days, 100), code),
        ),
      ]
    return [
      counts,
      figure(`ppv.${code}`, 'share', resampled(all, ratioOf(right, opened), `ppv ${code}`)),
      figure(
        `false-flags.${code}`,
        'per 100 patient-days',
        resampled(
          all,
          ratioOf((t) => opened(t) - right(t), days, 100),
          `false ${code}`,
        ),
      ),
    ]
  })
}
const UPKEEP = new Set<FindingCode>(['log-missed', 'dressing-overdue', 'flush-missed', 'exchange-due'])
const days = (tally: Tally) => tally.days
const clinicalFalse = (tally: Tally) =>
  Object.entries(tally.flags).reduce(
    (sum, [code, { opened, right }]) => sum + (UPKEEP.has(code as FindingCode) ? 0 : opened - right),
    0,
  )

/** What a day is like for the nurse of 100 patients. */
export function loadFigures(tallies: readonly Tally[]): Figure[] {
  const load = PANELS.flatMap((name) => {
    const of = panel(tallies, name)
    const perHundred = (what: string, unit: string, count: (tally: Tally) => number, aim?: Aim) =>
      figure(`${what}.${name}`, unit, resampled(of, ratioOf(count, days, 100), what + name), aim)
    return [
      perHundred(
        'clinical-rows',
        'rows per 100 patients a day',
        (t) => t.clinicalRowDays,
        name === '56%' ? { aim: '<= 15', holds: (v) => v <= 15 } : undefined,
      ),
      perHundred('upkeep-rows', 'rows per 100 patients a day', (t) => t.upkeepRowDays),
      perHundred('calls', 'calls per 100 patients a day', (t) => t.calls),
      perHundred('calls-outside-hours', 'calls per 100 patients a day', (t) => t.callsAtNight),
      perHundred('call-minutes', 'minutes per 100 patients a day', (t) => t.minutes),
      perHundred('clinical-false-flags', 'per 100 patient-days', clinicalFalse),
      ...Urgency.options
        .filter((urgency) => urgency !== 'none')
        .map((urgency) =>
          perHundred(
            `clinical-rows-${urgency}`,
            'rows per 100 patients a day',
            (t) => t.rowDaysByUrgency[urgency] ?? 0,
          ),
        ),
    ]
  })
  const free = panel(tallies, 'event-free')
  return [
    ...load,
    figure(
      'false-alarms.event-free',
      'clinical flags per 100 patient-days',
      resampled(free, ratioOf(clinicalFalse, days, 100), 'event-free'),
    ),
  ]
}

/** What must never be missed. */
export function safetyFigures(tallies: readonly Tally[]): Figure[] {
  const sum = (count: (tally: Tally) => number) => tallies.reduce((total, tally) => total + count(tally), 0)
  const shown = sum((t) => t.suddenShown)
  return [
    figure('at-once-stated', 'reports', { value: sum((t) => t.statedAtOnce), low: null, high: null }),
    figure(
      'at-once-missed',
      'reports',
      { value: sum((t) => t.missedAtOnce), low: null, high: null },
      { aim: '0', holds: (v) => v === 0 },
    ),
    figure(
      'sudden-obstruction-first-reading',
      'share',
      share(
        sum((t) => t.suddenSeen),
        shown,
      ),
      { aim: '1', holds: (v) => v === 1 },
    ),
  ]
}

/** The rules beside three simpler ways, on falls of steady drains. */
export function wayFigures(tallies: readonly Tally[]): Figure[] {
  const all = withEvents(tallies)
  const falls = all.flatMap((tally) => tally.events.filter(({ steady, judged }) => steady && judged))
  const steadyDays = (tally: Tally) => tally.steadyDrainDays
  const delay = (name: string, of: (event: EventTally) => number | null) =>
    figure(
      `ways.${name}.delay-median`,
      'h',
      resampled(
        all,
        quantileOf(0.5, (t) => t.events.filter(({ steady }) => steady).flatMap((event) => of(event) ?? [])),
        name,
      ),
    )
  const ours = [
    figure(
      'ways.rules-output.sensitivity',
      'share',
      share(falls.filter((e) => e.outputAfterHours !== null).length, falls.length),
    ),
    delay('rules-output', (event) => event.outputAfterHours),
    figure(
      'ways.rules-output.false',
      'per 100 drain-days',
      resampled(
        all,
        ratioOf((t) => t.outputFalse, steadyDays, 100),
        'rof',
      ),
    ),
    figure('ways.rules-all.sensitivity', 'share', share(falls.filter(found).length, falls.length)),
    delay('rules-all', (event) => event.foundAfterHours),
    figure('ways.rules-and-own-call.sensitivity', 'share', heard(falls)),
    delay('rules-and-own-call', heardAfter),
  ]
  const simple = ways.flatMap((way) => {
    const of = (tally: Tally) => tally.ways.filter((entry) => entry.way === way)
    const events = all.flatMap((tally) => of(tally).flatMap((entry) => entry.found))
    const chance = all.reduce((sum, tally) => sum + of(tally).reduce((n, entry) => n + entry.byChance, 0), 0)
    return [
      figure(
        `ways.${way}.sensitivity`,
        'share',
        share(events.filter((hours) => hours !== null).length, events.length),
      ),
      figure(`ways.${way}.by-chance`, 'share', share(chance, events.length)),
      figure(
        `ways.${way}.delay-median`,
        'h',
        resampled(
          all,
          quantileOf(0.5, (t) => of(t).flatMap((entry) => entry.found.filter((hours) => hours !== null))),
          way,
        ),
      ),
      figure(
        `ways.${way}.false`,
        'per 100 drain-days',
        resampled(
          all,
          ratioOf((t) => of(t).reduce((sum, entry) => sum + entry.falseAlerts, 0), steadyDays, 100),
          `${way} false`,
        ),
      ),
    ]
  })
  return [...ours, ...simple]
}
