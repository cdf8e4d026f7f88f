import { ofText, percentText, wholeText } from '../../domain/figure-text.ts'
import { flutters } from '../../domain/flutter.ts'
import { findingLabels, thresholdLabels, urgencyLabels } from '../../domain/labels.ts'
import { urgencyRank } from '../../domain/words.ts'
import { grouped } from '../../store/rows.ts'
import type { Facts } from './facts.ts'
import { type Made, made, type Unit } from './made.ts'
import type { Opening } from './openings.ts'
import { partsBy } from './trust.ts'
import { dayNumber, weekAt } from './weeks.ts'

/** How much the flags ask of a team. */
export const load = (facts: Facts, openings: readonly Opening[]): Made[] => [
  flagRate(facts),
  perNurseDay(facts, openings),
  pressing(facts, openings),
  flutterShare(facts),
  repeats(facts, openings),
  overrides(facts),
]

export const byPatient =
  'Interval by patient (linearisation, on the scale of the logarithm); exact for Poisson counts where no patient counts twice.'
export const chartNote =
  'Weeks on a u-chart; its limits are for independent counts, so they are too narrow where few patients count often.'

/** Catheter-days of all drains at risk, as exposures. */
export const exposures = ({ drains }: Facts): Unit[] =>
  drains.flatMap(({ patient, days }) => days.map((d, week) => ({ patient, week, n: 0, d })))

/** The same in sum, for parts, which are not charted by week. */
export const exposuresInAll = (drains: Facts['drains']): Unit[] =>
  drains.map(({ patient, days }) => ({ patient, week: -1, n: 0, d: days.reduce((sum, d) => sum + d, 0) }))

/** What belongs beside each rate over time at risk: how much of it was silent. */
export function silence({ drains, atRisk, heard }: Facts): { label: string; text: string }[] {
  const total = (weeks: readonly number[]) => weeks.reduce((sum, days) => sum + days, 0)
  const catheter = drains.reduce((sum, { days }) => sum + total(days), 0)
  let all = 0
  let silent = 0
  for (const [patient, weeks] of atRisk) {
    const own = heard.get(patient)
    for (const [week, days] of weeks.entries()) {
      all += days
      silent += Math.max(0, days - (own?.[week] ?? 0))
    }
  }
  return [
    { label: 'Catheter-days at risk', text: wholeText(Math.round(catheter * 1e6) / 1e6) },
    {
      label: 'Days of silence',
      text: `${ofText(silent, all)} patient-days${all > 0 ? ` (${percentText(silent / all)})` : ''}`,
    },
  ]
}

function flagRate(facts: Facts): Made {
  const { flags, weeks } = facts
  const unitsOf = (some: typeof flags): Unit[] =>
    some.map(({ patientId, openedAt }) => ({
      patient: patientId,
      week: weekAt(weeks, Date.parse(openedAt)),
      n: 1,
      d: 0,
    }))
  const days = exposuresInAll(facts.drains)
  return made(
    {
      name: 'flags-per-1000-days',
      group: 'load',
      label: 'Clinical flags per 1,000 catheter-days',
      unit: 'per-1000-days',
      kind: 'rate',
      counts: { numerator: 'clinical flags opened', denominator: 'catheter-days at risk at home' },
      method: `${byPatient} ${chartNote}`,
      doesNotSay: 'Few flags can mean well patients, silent ones, or rules that look away.',
      units: [...unitsOf(flags), ...exposures(facts)],
      parts: partsBy(
        flags,
        ({ code }) => code,
        findingLabels,
        (some) => [...unitsOf([...some]), ...days],
      ),
      beside: silence(facts),
    },
    weeks,
  )
}

function perNurseDay(facts: Facts, openings: readonly Opening[]): Made {
  const { allCalls, weeks, offsets, atRisk } = facts
  const shifts = weeks.map(() => new Set<string>())
  for (const { at, ms, by } of allCalls) shifts[weekAt(weeks, ms)]?.add(`${by} ${dayNumber(offsets, at)}`)
  // A nurse's day is nobody's in particular: each patient at risk bears the same part of it.
  const bears = (week: number) => (shifts[week]?.size ?? 0) / Math.max(1, atRisk.size)
  return made(
    {
      name: 'openings-per-nurse-day',
      group: 'load',
      label: 'Rows opened per nurse’s day',
      unit: 'per-nurse-day',
      kind: 'rate',
      counts: {
        numerator: 'times that a clinical row opened',
        denominator: 'days of a member of staff with a recorded call',
      },
      method: `A row opens when clinical flags of one patient open at one moment. ${byPatient} ${chartNote}`,
      doesNotSay:
        'A day on which somebody worked the list and recorded no call is not counted, nor how long a day was.',
      units: [
        ...openings.map(({ patient, week }) => ({ patient, week, n: 1, d: 0 })),
        ...[...atRisk.keys()].flatMap((patient) =>
          weeks.map((_, week) => ({ patient, week, n: 0, d: bears(week) })),
        ),
      ],
    },
    weeks,
  )
}

const tiers = ['at-once', 'within-1h', 'within-24h', 'within-3d'] as const

function pressing({ weeks }: Facts, openings: readonly Opening[]): Made {
  const unitsOf = (isOne: (opening: Opening) => boolean): Unit[] =>
    openings.map((opening) => ({
      patient: opening.patient,
      week: opening.week,
      n: isOne(opening) ? 1 : 0,
      d: 1,
    }))
  return made(
    {
      name: 'pressing-share',
      group: 'load',
      label: 'Rows that open at once or within 1 hour',
      unit: 'share',
      kind: 'share',
      counts: { numerator: 'rows that opened so', denominator: 'times that a clinical row opened' },
      method: 'By the most urgent flag that opened. Interval by patient, Wilson. Weeks on a run chart.',
      doesNotSay: 'Whether the urgency was right: that is for the verdicts.',
      units: unitsOf(({ urgency }) => urgencyRank[urgency] >= urgencyRank['within-1h']),
      parts: tiers.map((key) => ({
        key,
        label: urgencyLabels[key],
        units: unitsOf(({ urgency }) => urgency === key),
      })),
    },
    weeks,
  )
}

function flutterShare({ flags, restless, weeks }: Facts): Made {
  const restlessFlags = new Set(
    [...grouped(restless, ({ patientId }) => patientId).values()].flatMap((steps) =>
      flutters(
        steps.map(({ flagId: id, code, drain }) => ({ id, code, drain })),
        steps,
      ).flatMap(({ flagIds }) => flagIds),
    ),
  )
  return made(
    {
      name: 'flutter-share',
      group: 'load',
      label: 'Flags that flutter',
      unit: 'share',
      kind: 'share',
      counts: {
        numerator: 'clinical flags that opened and ended three times within 72 h, each time counted',
        denominator: 'clinical flags opened',
      },
      method: 'By finding and drain. Interval by patient, Wilson. Weeks on a run chart.',
      doesNotSay: 'What flutters may be a value near its threshold, or a patient who is getting worse.',
      units: flags.map(({ id, patientId, openedAt }) => ({
        patient: patientId,
        week: weekAt(weeks, Date.parse(openedAt)),
        n: restlessFlags.has(id) ? 1 : 0,
        d: 1,
      })),
    },
    weeks,
  )
}

function repeats({ weeks }: Facts, openings: readonly Opening[]): Made {
  const opened = openings.map(({ patient, week }) => ({ patient, week, n: 1, d: 0 }))
  const once = (keyOf: (opening: Opening) => string): Unit[] =>
    [...new Map(openings.map((opening) => [keyOf(opening), opening])).values()].map(({ patient, week }) => ({
      patient,
      week,
      n: 0,
      d: 1,
    }))
  const times = [...grouped(openings, ({ patient }) => patient).values()].map(({ length }) => length)
  return made(
    {
      name: 'repeats-per-patient',
      group: 'load',
      label: 'Rows opened per patient who had any',
      unit: 'per-patient',
      kind: 'mean',
      counts: {
        numerator: 'times that a clinical row opened',
        denominator: 'patients of whom one opened at all',
      },
      method: 'Mean; interval by patient, on the scale of the logarithm. Weeks on a run chart.',
      doesNotSay: 'A mean hides the few who open again and again: see beside it.',
      units: [...opened, ...once(({ patient }) => patient)],
      weekly: [...opened, ...once(({ patient, week }) => `${patient} ${week}`)],
      beside: [
        {
          label: 'Patients with three or more',
          text: ofText(times.filter((n) => n >= 3).length, times.length),
        },
        { label: 'Most of one patient', text: String(times.reduce((most, n) => Math.max(most, n), 0)) },
      ],
    },
    weeks,
  )
}

function overrides({ drains, weeks }: Facts): Made {
  const placed = drains.filter(({ days }) => days.some((d) => d > 0))
  const names = Object.keys(thresholdLabels) as (keyof typeof thresholdLabels)[]
  const unitsOf = (isOne: (own: (typeof placed)[number]['own']) => boolean): Unit[] =>
    placed.map(({ patient, own }) => ({ patient, week: -1, n: isOne(own) ? 1 : 0, d: 1 }))
  return made(
    {
      name: 'overrides',
      group: 'load',
      label: 'Drains with thresholds of their own',
      unit: 'share',
      kind: 'share',
      counts: {
        numerator: 'drains with a threshold of their own at the end of the period',
        denominator: 'drains at risk in the period',
      },
      method: 'Interval by patient, Wilson. As it stood at the end: not by week.',
      doesNotSay: 'Whether such a threshold silences something: the rule sets list them, those first.',
      units: unitsOf((own) => own !== null && Object.keys(own).length > 0),
      parts: names.map((key) => ({
        key,
        label: thresholdLabels[key],
        units: unitsOf((own) => own?.[key] !== undefined),
      })),
    },
    weeks,
  )
}
