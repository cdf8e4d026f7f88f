import type { Finding } from '../../domain/assessment.ts'
import type { OutsideEventKind } from '../../domain/outside-event.ts'
import type { Truly, Verdict } from '../../domain/review.ts'
import { trulyFor } from '../../domain/review-page.ts'
import type { DrainKind, FindingCode } from '../../domain/words.ts'
import type { SimulatedPatient, TrueEventType, Truth } from '../../simulate/index.ts'
import type { Random } from '../../simulate/random.ts'
import { isAbout, isRight } from '../evaluate/matching.ts'

const LATE_MS = 24 * 3_600_000
const UPKEEP: readonly FindingCode[] = ['log-missed', 'dressing-overdue', 'flush-missed', 'exchange-due']

/** What a physician of the scenario writes about an item. */
export type Opinion = { verdict: Verdict; truly: Truly; harm: 'none' | 'minor' }

const trulyOf: Partial<Record<TrueEventType, Truly>> = {
  'sudden-obstruction': 'obstruction',
  'gradual-obstruction': 'obstruction',
  'drain-out': 'dislodgement',
  'drain-moved': 'dislodgement',
  infection: 'infection',
  bleeding: 'bleeding',
  fistula: 'fistula',
  recovery: 'improving',
}
const otherwise: Partial<Record<FindingCode, Truly>> = {
  'severe-pain': 'pain',
  'infection-signs': 'other-illness',
  unwell: 'other-illness',
  leak: 'leak-at-site',
  'output-decline': 'dehydration',
}

/** How a true event shows outside: what was found, and how it is called; null where nobody outside learns of it. */
export const outsideKind: Partial<Record<TrueEventType, OutsideEventKind>> = {
  'sudden-obstruction': 'obstruction',
  'gradual-obstruction': 'obstruction',
  'drain-out': 'dislodgement',
  'drain-moved': 'exchange',
  infection: 'infection',
  bleeding: 'bleeding',
  fistula: 'admission',
}

const wasTrue = ({ onset, end }: Truth, at: number) =>
  Date.parse(onset) <= at && (end === null || at <= Date.parse(end.at))

/** Of a flag, by what is really the matter with the simulated patient; upkeep by chance, as people judge it. */
export function ofFlag(finding: Finding, patient: SimulatedPatient, at: number, random: Random): Opinion {
  if (UPKEEP.includes(finding.code))
    return random.chance(0.7)
      ? { verdict: 'warranted', truly: 'upkeep-missed', harm: 'none' }
      : { verdict: 'not-warranted', truly: 'nothing', harm: 'none' }
  if (random.chance(0.06)) return { verdict: 'cannot-tell', truly: 'other', harm: 'none' }
  if (!isRight(finding, patient, at)) {
    const truly = otherwise[finding.code] ?? 'nothing'
    return { verdict: 'not-warranted', truly: fitting(truly, patient), harm: 'none' }
  }
  const event = patient.truth.events.find((one) => isAbout(finding, one, at) && Date.parse(one.onset) <= at)
  if (!event) return { verdict: 'warranted', truly: 'wrong-reading', harm: 'none' }
  const isLate = at - Date.parse(event.onset) > LATE_MS && event.type !== 'recovery'
  return {
    verdict: isLate ? 'warranted-late' : 'warranted',
    truly: fitting(trulyOf[event.type] ?? 'other', patient),
    harm: isLate && event.feverFrom !== null ? 'minor' : 'none',
  }
}

/** Of a day on which no flag stood: warranted where something was the matter that nobody knew of. */
export function ofDay(patient: SimulatedPatient, at: number, random: Random): Opinion {
  const event = patient.truth.events.find(
    (one) => trulyOf[one.type] && one.type !== 'recovery' && wasTrue(one, at),
  )
  if (event)
    return {
      verdict: 'warranted',
      truly: fitting(trulyOf[event.type] ?? 'other', patient),
      harm: event.feverFrom === null ? 'none' : 'minor',
    }
  return random.chance(0.08)
    ? { verdict: 'cannot-tell', truly: 'other', harm: 'none' }
    : { verdict: 'not-warranted', truly: 'nothing', harm: 'none' }
}

/** What another reader says who knows nothing of the first: mostly the same. */
export function ofAnother(first: Opinion, random: Random): Opinion {
  if (random.chance(0.86)) return first
  return first.verdict === 'not-warranted'
    ? { ...first, verdict: 'warranted' }
    : { ...first, verdict: 'not-warranted', truly: 'nothing', harm: 'none' }
}

const fitting = (truly: Truly, { enrolment }: SimulatedPatient): Truly => {
  const kinds: DrainKind[] = enrolment.drains.map(({ kind }) => kind)
  return trulyFor(kinds).includes(truly) ? truly : 'other'
}
