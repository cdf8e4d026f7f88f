import type { PatientRecord } from '../../domain/record.ts'
import { abruptDecline } from '../../rules/findings/output-decline.ts'
import { slowDecline } from '../../rules/findings/slow-decline.ts'
import { prepare } from '../../rules/series/prepare.ts'
import { View } from '../../rules/series/view.ts'
import { standardRuleSet } from '../../rules/thresholds.ts'
import { randomFor, simulatePatient } from '../../simulate/index.ts'
import { type Figure, figure } from './figures.ts'
import { START } from './follow.ts'
import { progressBar } from './progress.ts'
import { quantileOf, ratioOf, resampled } from './resample.ts'
import { families, keepsPromise, type SlowMethod, slowMethods, type WholeDay } from './slow-methods.ts'
import type { Section } from './text.ts'

/** False alarms that a method may cost, in starts per 100 patient-days of a steady drain. */
const MAY_COST = 0.25
const TUNING_FROM_SEED = 1_000_000
const DAYS = 60
const KINDS = [
  'nephrostomy',
  'nephrostomy',
  'nephrostomy',
  'biliary',
  'cholecystostomy',
  'nephroureteral',
] as const
const ADHERENCE = [0.8, 0.56] as const
const HOUR_MS = 3_600_000

/** What was known of one steady drain at a receipt, and what the rules said of it. */
type Step = {
  readonly at: number
  readonly days: readonly WholeDay[]
  readonly abrupt: boolean
  /** The chart of the rule set in force. */
  readonly inForce: boolean
}
type Signal = (step: Step) => boolean
type Series = {
  readonly steps: readonly Step[]
  /** A gradual obstruction, in half of the series. */
  readonly event: { readonly onset: number; readonly halfFrom: number; readonly until: number } | null
  readonly days: number
}
type Outcome = { readonly days: number; falseStarts: number; events: number; found: number; delays: number[] }

function seriesOf(seed: number, adherence: number, withEvent: boolean, kind: (typeof KINDS)[number]): Series {
  const onsetHour = randomFor(seed, 'slow-change').between(12, 45) * 24
  const events = withEvent ? [{ type: 'gradual-obstruction' as const, onsetHour }] : 'none'
  const patient = simulatePatient(seed, { start: START, days: DAYS, adherence, kind, events })
  const record: PatientRecord = {
    ...patient.enrolment,
    reports: [...patient.reports],
    staffEvents: [...patient.staffEvents],
  }
  const prepared = prepare(record, standardRuleSet, Date.parse(START) + DAYS * 24 * HOUR_MS)
  const steps = patient.reports.flatMap((report) => {
    const at = Date.parse(report.receivedAt)
    const drain = new View(prepared, at).drains[0]
    if (!drain) return []
    return [
      {
        at,
        days: drain.output.clean.map(({ start, netMl }) => ({
          day: Math.round(start / (24 * HOUR_MS)),
          netMl,
        })),
        abrupt: abruptDecline(drain, drain.output.own.length - 1) !== null,
        inForce: slowDecline(drain) !== null,
      },
    ]
  })
  const event = patient.truth.events.find(({ type }) => type === 'gradual-obstruction')
  return {
    steps,
    event: event
      ? {
          onset: Date.parse(event.onset),
          halfFrom: Date.parse(event.halfFrom ?? event.onset),
          until: event.end ? Date.parse(event.end.calledAt) : Number.POSITIVE_INFINITY,
        }
      : null,
    days: event ? (Date.parse(event.onset) - Date.parse(START)) / (24 * HOUR_MS) : DAYS,
  }
}

function outcomeOf(series: Series, signals: Signal, besideAbrupt: boolean): Outcome {
  const outcome: Outcome = {
    days: series.days,
    falseStarts: 0,
    events: series.event ? 1 : 0,
    found: 0,
    delays: [],
  }
  let before = false
  for (const step of series.steps) {
    const { at } = step
    const now = signals(step) || (besideAbrupt && step.abrupt)
    if (!series.event || at < series.event.onset) {
      if (now && !before) outcome.falseStarts++
    } else if (now && outcome.found === 0 && at < series.event.until) {
      outcome.found = 1
      outcome.delays.push((at - series.event.halfFrom) / HOUR_MS)
    }
    before = now
  }
  return outcome
}

const panelsOf = (patients: number, firstSeed: number, done: () => void) =>
  ADHERENCE.map((adherence) =>
    Array.from({ length: patients }, (_, i) => {
      const series = seriesOf(
        firstSeed + i,
        adherence,
        i % 2 === 0,
        KINDS[Math.floor(i / 2) % KINDS.length] ?? 'nephrostomy',
      )
      done()
      return series
    }),
  )

const sensitivity = ratioOf<Outcome>(
  (o) => o.found,
  (o) => o.events,
)
const falseStarts = ratioOf<Outcome>(
  (o) => o.falseStarts,
  (o) => o.days,
  100,
)

type Rated = { readonly method: SlowMethod; readonly cost: number; readonly worth: number }
const signalOf =
  ({ signals }: SlowMethod): Signal =>
  ({ days }) =>
    signals(days)

/** Settings of one method that keep the promise (all, if none does) and are not too costly, the worthiest first. */
function rate(family: SlowMethod['family'], tuning: readonly (readonly Series[])[]): Rated[] {
  const own = slowMethods.filter((method) => method.family === family)
  const keeping = own.filter(keepsPromise)
  const outcomes = (method: SlowMethod, beside: boolean) =>
    tuning.map((panel) => panel.map((series) => outcomeOf(series, signalOf(method), beside)))
  return (keeping.length > 0 ? keeping : own)
    .map((method) => ({
      method,
      cost: Math.max(
        ...outcomes(method, false).map((panel) => falseStarts(panel) ?? Number.POSITIVE_INFINITY),
      ),
      worth:
        outcomes(method, true).reduce((sum, panel) => sum + (sensitivity(panel) ?? 0), 0) / tuning.length,
    }))
    .filter(({ cost }) => cost <= MAY_COST)
    .sort((a, b) => b.worth - a.worth)
}

/** Chooses settings per method on the tuning seeds, and shows the chosen and the chart in force on others. */
export function slowChangeSections(patients: number, seed: number): Section[] {
  const progress = progressBar('slow change', patients * 4 + families.length)
  let count = 0
  const done = () => progress.at(++count)
  const tuning = panelsOf(patients, TUNING_FROM_SEED, done)
  const chosen = families.flatMap((family) => {
    const [best, ...others] = rate(family, tuning)
    done()
    if (!best) return []
    const alike = others.filter(({ worth }) => best.worth - worth <= ALIKE).length
    return [{ ...best, alike }]
  })
  const shown = panelsOf(patients, seed, done)
  progress.end()
  return [
    { title: 'The abrupt form alone', note: NOTE, figures: figuresOf(shown, 'abrupt-alone', () => false) },
    {
      title: `The chart in force (rule set ${standardRuleSet.version})`,
      note: '',
      figures: figuresOf(shown, 'in-force', ({ inForce }) => inForce),
    },
    ...chosen.map(({ method, alike }) => ({
      title: `${method.family}: ${method.name}`,
      note: `${alike} other settings lie within ${ALIKE * 100} points on the tuning seeds.${keepsPromise(method) ? '' : ` ${BREAKS_PROMISE}`}`,
      figures: figuresOf(shown, method.family, signalOf(method)),
    })),
  ]
}

const ALIKE = 0.02
const BREAKS_PROMISE =
  'No setting of this method tells three days of little more than half from two days of nothing.'
const NOTE = `A gradual obstruction in half of the patients; delay from the moment when half is gone. Settings chosen on seeds from ${TUNING_FROM_SEED} up: the most sensitive beside the abrupt form at no more than ${MAY_COST} false starts per 100 patient-days of its own.`

function figuresOf(panels: readonly (readonly Series[])[], name: string, signals: Signal): Figure[] {
  return panels.flatMap((panel, i) => {
    const at = `${Math.round((ADHERENCE[i] ?? 0) * 100)}%`
    return (name === 'abrupt-alone' ? [true] : [false, true]).flatMap((beside) => {
      const outcomes = panel.map((series) => outcomeOf(series, signals, beside))
      const label = `${name}${beside && name !== 'abrupt-alone' ? '-beside-abrupt' : ''}`
      return [
        figure(
          `slow-change.${label}.sensitivity.${at}`,
          'share',
          resampled(outcomes, sensitivity, `${label} s ${at}`),
        ),
        figure(
          `slow-change.${label}.delay-median.${at}`,
          'h',
          resampled(
            outcomes,
            quantileOf(0.5, (o) => o.delays),
            `${label} d ${at}`,
          ),
        ),
        figure(
          `slow-change.${label}.false-starts.${at}`,
          'per 100 patient-days',
          resampled(outcomes, falseStarts, `${label} f ${at}`),
        ),
      ]
    })
  })
}
