import { hoursText, ofText, percentText } from '../../domain/figure-text.ts'
import { FEW } from '../../domain/figures.ts'
import { findingLabels } from '../../domain/labels.ts'
import { outsideEventLabels } from '../../domain/outcomes-page.ts'
import { Verdict } from '../../domain/review.ts'
import { stratumLabels, verdictLabels } from '../../domain/review-page.ts'
import { median } from '../../rules/statistics/median.ts'
import type { Event } from '../../store/audit-facts.ts'
import { grouped } from '../../store/rows.ts'
import { agreement } from '../statistics/agreement.ts'
import type { Facts } from './facts.ts'
import { type Made, made, type Part, type Unit } from './made.ts'
import type { Read } from './readings.ts'
import { weekAt } from './weeks.ts'

/** Whether flags deserve trust, and what no flag told. */
export function trust(facts: Facts): Made[] {
  const place = new Map(facts.weeks.map(({ monday }, i) => [monday, i]))
  const unitOf = ({ patientId, week, probability }: Read, n: boolean): Unit => ({
    patient: patientId,
    week: place.get(week) ?? -1,
    n: n ? 1 : 0,
    d: 1,
    weight: 1 / probability,
  })
  return [
    predictiveValue(facts, unitOf),
    sensitivity(facts),
    missedDays(facts, unitOf),
    readersAgree(facts, unitOf),
  ]
}

type UnitOf = (read: Read, n: boolean) => Unit
const isWarranted = ({ verdict }: Read) => verdict === 'warranted' || verdict === 'warranted-late'
const isJudged = ({ verdict }: Read) => verdict !== null && verdict !== 'cannot-tell'

const weighted =
  'Each item counts 1 / its chance of being drawn (Hájek). Interval: Wilson, with the number of items that are worth as much when each patient counts as one.'

function predictiveValue({ read, weeks }: Facts, unitOf: UnitOf): Made {
  const all = read.filter(({ kind }) => kind === 'flag')
  const flags = all.filter(({ nature }) => nature !== 'upkeep')
  const judged = flags.filter(isJudged)
  const unitsOf = (items: readonly Read[]) => items.map((item) => unitOf(item, isWarranted(item)))
  return made(
    {
      name: 'predictive-value',
      group: 'trust',
      label: 'Positive predictive value',
      unit: 'share',
      kind: 'share',
      counts: {
        numerator: 'clinical flags judged warranted, in time or late',
        denominator: 'clinical flags read and judged',
      },
      method: weighted,
      doesNotSay:
        'A verdict is a reader’s opinion after the event. It says nothing of what no flag told; calls already made changed what followed.',
      units: unitsOf(judged),
      parts: partsBy(all.filter(isJudged), ({ code }) => code, findingLabels, unitsOf),
      beside: [
        count(
          'Warranted, but late',
          judged.filter(({ verdict }) => verdict === 'warranted-late'),
        ),
        count(
          'Cannot tell, not in it',
          flags.filter(({ verdict }) => verdict === 'cannot-tell'),
        ),
        count(
          'Second reading or settling awaited, not in it',
          flags.filter(({ verdict }) => verdict === null),
        ),
        count(
          'Upkeep judged, by its finding alone',
          all.filter((one) => one.nature === 'upkeep' && isJudged(one)),
        ),
      ],
    },
    weeks,
  )
}

/**
 * Events are known best of those with whom somebody spoke. So an event counts where it lies in a time of which its patient was asked and
 * the answer is known, and weighs as many patient-days, of those flagged or not, as each day that is known of stands for.
 */
function sensitivity(facts: Facts): Made {
  const { events, matches, knownUntil, knownDays, atRisk, flagged, weeks, read } = facts
  const daysOf = (days: ReadonlyMap<string, number[]>, isFlagged: boolean) =>
    [...days]
      .filter(([patient]) => flagged.has(patient) === isFlagged)
      .reduce((sum, [, own]) => sum + own.reduce((a, b) => a + b, 0), 0)
  const strata = [true, false].map((isFlagged) => ({
    isFlagged,
    all: daysOf(atRisk, isFlagged),
    known: daysOf(knownDays, isFlagged),
  }))
  const weightOf = (patient: string) => {
    const stratum = strata.find(({ isFlagged }) => isFlagged === flagged.has(patient))
    return stratum && stratum.known > 0 ? stratum.all / stratum.known : 1
  }
  const counted = events.filter(
    ({ patientId, at }) => Date.parse(at) <= (knownUntil.get(patientId) ?? Number.NEGATIVE_INFINITY),
  )
  const isFound = (event: string) => (matches.get(event)?.hoursAhead ?? null) !== null
  const unitsOf = (some: readonly Event[]): Unit[] =>
    some.map(({ id, patientId, at }) => ({
      patient: patientId,
      week: weekAt(weeks, Date.parse(at)),
      n: isFound(id) ? 1 : 0,
      d: 1,
      weight: weightOf(patientId),
    }))
  const ahead = counted.flatMap(({ id }) => matches.get(id)?.hoursAhead ?? [])
  const missed = counted.filter(({ id }) => !isFound(id))
  const silent = missed.filter(
    ({ id }) => (matches.get(id)?.hoursSinceHeard ?? Number.POSITIVE_INFINITY) > 48,
  )
  const days = read.filter((item) => item.kind === 'day' && isJudged(item))
  const hasGap = strata.some(({ all, known }) => all > 0 && known === 0)
  return made(
    {
      name: 'sensitivity',
      group: 'trust',
      label: 'Sensitivity for known outside events',
      unit: 'share',
      kind: 'share',
      counts: {
        numerator: 'events that a flag of a fitting finding told of, opened in the 7 days before',
        denominator: 'events in a time of which it is known what became of the patient',
      },
      method:
        'It is known what became of a patient in the first 30 days, or until the end, once that was asked and answered. Each event counts for all patient-days at risk that such days stand for: patients with a flag and those without are weighted apart (Hájek). Interval by patient, Wilson. The 7 days are a local choice.',
      doesNotSay:
        'Events that nobody was told of are in no count. A flag before an event need not have been about it. An exchange elsewhere may have been planned.',
      units: unitsOf(counted),
      withheld:
        counted.length === 0
          ? 'Not shown: no outside event is known in a time that was asked about.'
          : days.length === 0
            ? 'Not shown: no day without a flag was read, so what was missed is not known.'
            : hasGap
              ? 'Not shown: of the patients with or without a flag none was asked, so the events do not stand for all.'
              : null,
      parts: partsBy(counted, ({ kind }) => kind, outsideEventLabels, unitsOf),
      beside: [
        {
          label: 'Hours ahead, median',
          text: ahead.length === 0 ? 'none found' : `${hoursText(median(ahead))} (${ahead.length} found)`,
        },
        count('Missed while not heard for over 48 h', silent),
        {
          label: 'Events in a time that was not asked about, not in it',
          text: String(events.length - counted.length),
        },
        {
          label: 'Patient-days of which it is known',
          text: ofText(
            strata.reduce((sum, { known }) => sum + known, 0),
            strata.reduce((sum, { all }) => sum + all, 0),
          ),
        },
      ],
    },
    weeks,
  )
}

function missedDays({ read, weeks }: Facts, unitOf: UnitOf): Made {
  const days = read.filter(({ kind }) => kind === 'day')
  const judged = days.filter(isJudged)
  const unitsOf = (items: readonly Read[]) => items.map((item) => unitOf(item, isWarranted(item)))
  return made(
    {
      name: 'missed-days',
      group: 'trust',
      label: 'Days without a flag on which a call was warranted',
      unit: 'share',
      kind: 'share',
      counts: {
        numerator: 'patient-days without a flag on which a reader would have called',
        denominator: 'patient-days without a flag, drawn, read and judged',
      },
      method: `Drawn at random by whether anything was heard. ${weighted}`,
      doesNotSay: 'On a day without a word a reader sees as little as the rules did.',
      units: unitsOf(judged),
      withheld: judged.length === 0 ? 'Not shown: no day without a flag was read.' : null,
      parts: partsBy(judged, ({ stratum }) => stratum, stratumLabels, unitsOf),
      beside: [
        count(
          'Cannot tell, not in it',
          days.filter(({ verdict }) => verdict === 'cannot-tell'),
        ),
      ],
    },
    weeks,
  )
}

function readersAgree({ read, weeks }: Facts, unitOf: UnitOf): Made {
  const both = read.flatMap((item) =>
    item.first && item.second ? [{ item, first: item.first, second: item.second }] : [],
  )
  const words = Verdict.options
  const pairs = both.map(({ item, first, second }) => ({
    first: words.indexOf(first),
    second: words.indexOf(second),
    cluster: item.patientId,
  }))
  const found = both.length >= FEW ? agreement(pairs, words.length) : null
  const two = (value: number) => value.toFixed(2)
  return made(
    {
      name: 'agreement',
      group: 'trust',
      label: 'Agreement of two readings',
      unit: 'share',
      kind: 'share',
      counts: { numerator: 'items with the same verdict twice', denominator: 'items read twice, blind' },
      method:
        'Raw agreement over four verdicts; interval by patient, Wilson. Kappa: Cohen, over the same four, its interval by patient (linearisation). AC1: Gwet, which does not fall where nearly all verdicts are the same.',
      doesNotSay:
        'Two readers can agree and both be wrong. Where one person reads alone it is how steady that person is.',
      units: both.map(({ item, first, second }) => ({ ...unitOf(item, first === second), weight: 1 })),
      beside: found
        ? [
            {
              label: 'Kappa',
              text: found.kappa
                ? `${two(found.kappa.value)} (${two(found.kappa.low)} to ${two(found.kappa.high)}), ${found.n} items`
                : 'none: all verdicts are the same',
            },
            { label: 'AC1', text: found.ac1 === null ? 'none' : two(found.ac1) },
            {
              label: 'Prevalence of the verdicts',
              text: words
                .flatMap((word, i) =>
                  found.prevalence[i]
                    ? [`${verdictLabels[word].toLowerCase()} ${percentText(found.prevalence[i])}`]
                    : [],
                )
                .join(', '),
            },
          ]
        : [],
    },
    weeks,
  )
}

const count = (label: string, items: readonly unknown[]) => ({ label, text: String(items.length) })

/** Parts of what was counted, in the order of their labels; what has no word is left out. */
export function partsBy<T, K extends string>(
  items: readonly T[],
  wordOf: (item: T) => K | null,
  labels: Readonly<Record<K, string>>,
  unitsOf: (items: readonly T[]) => Unit[],
): Part[] {
  const groups = grouped(items, (item) => wordOf(item) ?? '')
  return (Object.keys(labels) as K[]).flatMap((key) => {
    const own = groups.get(key)
    return own ? [{ key, label: labels[key], units: unitsOf(own) }] : []
  })
}
