import { percentText } from '../../domain/figure-text.ts'
import { FEW, type Figure } from '../../domain/figures.ts'
import { urgencyLabels } from '../../domain/labels.ts'
import { incidence } from '../statistics/aalen-johansen.ts'
import { clusteredError } from '../statistics/clustered-survival.ts'
import { kaplanMeier, medianWait } from '../statistics/kaplan-meier.ts'
import { logRank } from '../statistics/log-rank.ts'
import { endingOf } from './ending.ts'
import type { Facts } from './facts.ts'
import { type Amount, behindOf, type Made, made, NOTHING, runChart, TOO_FEW, type Unit } from './made.ts'
import { firstCall, type Opening } from './openings.ts'
import { weekAt } from './weeks.ts'

const HOUR_MS = 3_600_000
const MINUTE_MS = 60_000

/** How long patients waited. */
export const waiting = (facts: Facts, openings: readonly Opening[]): Made[] => [
  overdue(facts),
  timeTo('time-to-attempt', facts, openings),
  timeTo('time-to-reached', facts, openings),
  closedAtOnce(facts),
]

function overdue({ flags, calls, weeks, now }: Facts): Made {
  const units = flags.flatMap((flag): Unit[] => {
    const due = Date.parse(flag.actBy)
    const isOver = [flag.closedAt, flag.endedAt].some((at) => at !== null && Date.parse(at) <= due)
    if (flag.urgency === 'at-once' || due >= now) return []
    const opened = Date.parse(flag.openedAt)
    const reached = firstCall(calls.get(flag.patientId), opened, true)
    const isLate = !isOver && (reached === null || reached > due)
    return [{ patient: flag.patientId, week: weekAt(weeks, opened), n: isLate ? 1 : 0, d: 1 }]
  })
  return made(
    {
      name: 'overdue-share',
      group: 'waiting',
      label: 'Flags whose act-by passed with nobody reached',
      unit: 'share',
      kind: 'share',
      counts: {
        numerator: 'flags that stood at their act-by with nobody reached since they opened',
        denominator: 'clinical flags whose act-by has come, but for those at once',
      },
      method: 'Interval by patient, Wilson. Weeks on a run chart.',
      doesNotSay:
        'What is at once is due as it opens, so it is left out: see the time until reached. Of flags that grew more urgent the last act-by counts.',
      units,
    },
    weeks,
  )
}

type Wait = { patient: string; week: number; urgency: Opening['urgency']; time: number; cause: number }
const CAME = 1
const GONE = 2

/** From each opening until somebody tried, or spoke to the patient; or the drain came out or the patient died; or it is still waited for. */
function waitsOf(facts: Facts, openings: readonly Opening[], isReached: boolean): Wait[] {
  return openings.map((opening): Wait => {
    const { patient, week, urgency, at } = opening
    const call = firstCall(facts.calls.get(patient), at, isReached)
    const { gone, lost } = endingOf(facts, opening)
    const until = Math.min(gone ?? lost, lost)
    const [end, cause] =
      call !== null && call <= until ? [call, CAME] : gone !== null && gone <= lost ? [gone, GONE] : [lost, 0]
    return { patient, week, urgency, time: Math.max(0, end - at) / HOUR_MS, cause }
  })
}

/** The median wait, its interval by patient. */
function medianOf(waits: readonly Wait[]): Amount {
  const observed = waits.map(({ time, cause, patient }) => ({
    time,
    event: cause === CAME,
    cluster: patient,
  }))
  const numerator = observed.filter(({ event }) => event).length
  const amount = { value: null, low: null, high: null, numerator, denominator: waits.length }
  if (waits.length === 0) return { ...amount, why: NOTHING }
  if (numerator < FEW) return { ...amount, why: TOO_FEW }
  const steps = kaplanMeier(observed)
  const { median, low, high } = medianWait(steps, clusteredError(observed, steps))
  if (median === null) return { ...amount, low, why: 'Fewer than half, by the curve, as far as it is known.' }
  return { ...amount, value: median, low, high, why: null }
}

const words = {
  'time-to-attempt': {
    label: 'Hours from opening to the first attempt to call',
    numerator: 'rows with an attempt, a call that came in among them',
    done: 'Tried',
  },
  'time-to-reached': {
    label: 'Hours from opening until somebody was reached',
    numerator: 'rows of which somebody was reached',
    done: 'Reached',
  },
} as const

const tiers = ['at-once', 'within-1h', 'within-24h', 'within-3d'] as const

function timeTo(name: keyof typeof words, facts: Facts, openings: readonly Opening[]): Made {
  const { weeks } = facts
  const waits = waitsOf(facts, openings, name === 'time-to-reached')
  const { label, numerator, done } = words[name]
  const unitsOf = (some: readonly Wait[]): Unit[] =>
    some.map(({ patient, week, cause }) => ({ patient, week, n: cause === CAME ? 1 : 0, d: 1 }))
  const points = weeks.map(({ monday }, i) => {
    const own = waits.filter(({ week }) => week === i)
    const came = own.filter(({ cause }) => cause === CAME).length
    const { median } = medianWait(
      kaplanMeier(own.map(({ time, cause }) => ({ time, event: cause === CAME }))),
    )
    return {
      week: monday,
      numerator: came,
      denominator: own.length,
      value: came < FEW ? null : median,
    }
  })
  const firsts = waits.map(({ time, cause, patient }) => ({ time, cause, cluster: patient }))
  const share = (cause: number, hours: number) => {
    const { share: value, low, high } = incidence(firsts, cause, hours)
    if (value === 0) return `none of ${firsts.length}`
    return low === null || high === null
      ? percentText(value)
      : `${percentText(value)} (${percentText(low)} to ${percentText(high)})`
  }
  const behind = behindOf(unitsOf(waits))
  const parts = tiers.flatMap((key) => {
    const own = waits.filter(({ urgency }) => urgency === key)
    return own.length === 0 ? [] : [{ key, label: urgencyLabels[key], own }]
  })
  const figure: Figure = {
    name,
    group: 'waiting',
    label,
    unit: 'hours',
    ...medianOf(waits),
    counts: { numerator, denominator: 'times that a clinical row opened' },
    method:
      'Median by Kaplan–Meier: who was not called yet is censored now, when the flag ended by itself, when the drain came out or at death; so it is the wait of those who stay. Interval by patient (jackknife, log–log). Shares beside it by Aalen–Johansen: a drain that came out and a death shut the call out. Weeks on a run chart of their medians.',
    doesNotSay:
      'Hours of the night and of closed days count. A flag that ended uncalled leaves as if it might have been called later.',
    beside: waits.length < FEW ? [] : besideOf(done, share, waits, weeks.length),
    published: [],
    ...runChart(points, weeks),
    parts: parts.map(({ own, ...part }) => ({ ...part, ...medianOf(own), published: [] })),
    patients: behind.map(({ patient }) => patient),
    counted: behind.filter(({ isCounted }) => isCounted).length,
  }
  return {
    figure,
    behind: (part) =>
      part === null ? behind : behindOf(unitsOf(parts.find(({ key }) => key === part)?.own ?? [])),
  }
}

function besideOf(
  done: string,
  share: (cause: number, hours: number) => string,
  waits: readonly Wait[],
  weeks: number,
): { label: string; text: string }[] {
  // The test holds for people who wait once: of each patient the first row of the period.
  const first = [...new Map(waits.toReversed().map((wait) => [wait.patient, wait])).values()].map(
    ({ week, time, cause }) => ({ week, time, event: cause === CAME }),
  )
  const half = weeks / 2
  const test = logRank(
    first.filter(({ week }) => week < half),
    first.filter(({ week }) => week >= half),
  )
  return [
    { label: `${done} within 1 h`, text: share(CAME, 1) },
    { label: `${done} within 24 h`, text: share(CAME, 24) },
    { label: 'Drain out or died before it, within 72 h', text: share(GONE, 72) },
    ...(test && weeks > 1
      ? [
          {
            label: 'First half of the weeks against the second, first row of each patient',
            text: `log-rank χ² ${test.chiSquared.toFixed(2)}, p ${test.p < 0.001 ? 'under 0.001' : test.p.toFixed(3)}`,
          },
        ]
      : []),
  ]
}

function closedAtOnce({ flags, weeks }: Facts): Made {
  const closed = flags.filter(({ closedAt }) => closedAt !== null)
  return made(
    {
      name: 'closed-within-a-minute',
      group: 'waiting',
      label: 'Flags closed within a minute of opening',
      unit: 'share',
      kind: 'share',
      counts: { numerator: 'flags closed within 60 seconds', denominator: 'flags that a person closed' },
      method: 'From opening to closing. Interval by patient, Wilson. Weeks on a run chart.',
      doesNotSay:
        'A report taken by phone opens a flag that the same call closes: that is quick and right. Look at who is behind it.',
      units: closed.map(({ patientId, openedAt, closedAt }) => {
        const opened = Date.parse(openedAt)
        const isQuick = Date.parse(closedAt ?? openedAt) - opened <= MINUTE_MS
        return { patient: patientId, week: weekAt(weeks, opened), n: isQuick ? 1 : 0, d: 1 }
      }),
    },
    weeks,
  )
}
