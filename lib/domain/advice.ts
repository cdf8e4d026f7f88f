import type { AdviceName, AdviceTexts } from './advice-text.ts'
import { adviceNames, adviceUrgency } from './advice-urgency.ts'
import { isBiliary, isUrinary } from './kinds.ts'
import { isLow } from './low-output.ts'
import type { Advice, Submission } from './submission.ts'
import type { Appearance, Course, DrainKind } from './words.ts'

/** What advice needs to know of a drain. `recent` holds earlier readings in any order; without it only the
 * report itself is judged. `placedAt` is of the newest tube. */
export type AdviceDrain = {
  id: string
  kind: DrainKind
  course: Course
  capped: boolean
  placedAt: string
  usualAppearance: Appearance | null
  recent?: readonly { at: string; volumeMl: number | null }[]
}

/** The person's thresholds, the words in the language of the page, and the time. */
export type AdviceContext = {
  limits: { feverC: number; severePain: number }
  texts: AdviceTexts
  now: string
}

/** Pain that matters beside a capped tube, of 10 (rule set 2026.1). */
const CAPPED_PAIN = 4
/** Pleural fluid in one reading, in mL (rule set 2026.1). */
const PLEURAL_TODAY_ML = 1000
const PLEURAL_NOW_ML = 1500
/** How long after a tube was put in pink fluid is expected, and red fluid too in a bulb or pleural drain. */
const PINK_EXPECTED_H = 48
const RED_EXPECTED_H = 72
const HOUR_MS = 3_600_000

const EMERGENCY = new Set(['short-of-breath', 'chest-pain', 'fainted', 'confused', 'heavy-bleeding'])
const BAD_DRESSING = new Set(['damp', 'soiled', 'loosened', 'off'])

/**
 * What the sender of a report is told to do now: the most urgent first, each text once, the clinic's own
 * instructions always last.
 *
 * Pure and small on purpose: the check-in page asks it after every answer, in the browser, with or without
 * a network, before anything is sent; intake asks it again for the receipt. It looks at one report (and, for
 * a low output, at the readings before it). It never names a disease, and it never says that all is well.
 * It is not the rules: those see the whole record and tell the nurse. Where the two differ it errs towards a call.
 *
 * @example adviceFor({ symptoms: { at, drains: [{ drain: 'd1', position: 'out' }] } }, drains, context)[0].urgency // 'emergency'
 */
export const adviceFor = (
  report: Submission,
  drains: readonly AdviceDrain[],
  context: AdviceContext,
): Advice[] => adviceOf(casesOf(report, drains, context), context.texts)

/** The same as the names of the texts, before any is left out beside a stronger one. */
export const casesOf = (
  report: Submission,
  drains: readonly AdviceDrain[],
  context: Omit<AdviceContext, 'texts'>,
): AdviceName[] => [
  ...casesOfPerson(report, context),
  ...drains.flatMap((drain) => casesOfDrain(report, drain, context)),
]

/** Texts by their names as they are read: each once, none beside one that already sends further, in their order. */
export function adviceOf(names: Iterable<AdviceName>, texts: AdviceTexts): Advice[] {
  const cases = new Set(names)
  for (const [strong, weaker] of Object.entries(supersedes))
    if (cases.has(strong as AdviceName)) for (const name of weaker) cases.delete(name)
  if (cases.size === 0) cases.add('keep-watching')
  cases.add('clinic-first')
  return adviceNames
    .filter((name) => cases.has(name))
    .map((name) => ({ name, urgency: adviceUrgency[name], ...texts[name] }))
}

/** Where two texts would send a person to two places, only the more urgent one is said. */
const supersedes: Partial<Record<AdviceName, AdviceName[]>> = {
  'blocked-and-infected': ['fever', 'not-draining', 'cap-failing', 'flush-blocked'],
  'bleeding-and-faint': ['bleeding', 'unwell'],
  'drain-out': ['leak', 'cap-failing'],
  'emergency-symptoms': ['unwell'],
  fever: ['cloudy-fluid', 'skin'],
  'large-volume-now': ['large-volume'],
  'high-output': ['high-output-today'],
}

type Judged = Omit<AdviceContext, 'texts'>

function casesOfPerson({ symptoms }: Submission, { limits }: Judged): AdviceName[] {
  const general = symptoms?.general ?? []
  return when({
    'emergency-symptoms': general.some((symptom) => EMERGENCY.has(symptom)),
    unwell: general.includes('vomiting') || general.includes('dizzy'),
    fever: isFeverish(symptoms, limits.feverC),
    'severe-pain': (symptoms?.pain ?? 0) >= limits.severePain,
  })
}

function casesOfDrain(report: Submission, drain: AdviceDrain, { limits, now }: Judged): AdviceName[] {
  const mine = <T extends { drain: string }>(parts: T[] | undefined) =>
    (parts ?? []).filter((part) => part.drain === drain.id)
  const readings = mine(report.readings)
  const state = mine(report.symptoms?.drains)
  const dressings = mine(report.dressings)
  const general = report.symptoms?.general ?? []
  const { recent = [] } = drain

  /** Whether the fluid was said to look so, where that is neither usual for this drain nor expected of a new tube. */
  const looks = (...words: Appearance[]) =>
    readings.some(
      ({ appearance, at }) =>
        appearance != null &&
        words.includes(appearance) &&
        appearance !== drain.usualAppearance &&
        !isExpected(appearance, at, drain),
    )
  const skin = (...words: string[]) => dressings.some((dressing) => words.includes(dressing.skin ?? ''))
  const dayBefore = Date.parse(now) - 24 * HOUR_MS
  const largestMl = Math.max(
    0,
    ...readings.map(({ volumeMl, at }) => (Date.parse(at) >= dayBefore ? (volumeMl ?? 0) : 0)),
  )

  const out = state.some((part) => part.position === 'out')
  const moved = state.some((part) => part.position === 'moved')
  const leak = state.some((part) => part.leak === true)
  const flushBlocked = mine(report.flushes).some((flush) => flush.ease === 'blocked')
  // What is typed in from last week's paper says nothing of now where a later reading has been sent.
  const isNewest = !recent.some(({ at }) => readings.every((one) => Date.parse(one.at) < Date.parse(at)))
  // Little from a drain that should dwindle, or that is capped, is no alarm; 'not draining' is a person's own word.
  const little = drain.course === 'steady' && !drain.capped && isNewest && isLow(readings, recent)
  const notDraining = (!drain.capped && state.some((part) => part.draining === false)) || little

  const feverish = isFeverish(report.symptoms, limits.feverC)
  const disturbed = notDraining || leak || moved || out || flushBlocked || drain.capped
  const bloody = looks('red', 'clots')
  const pleural = drain.kind === 'pleural'

  return when({
    'drain-out': out && drain.kind !== 'bulb',
    'bulb-out': out && drain.kind === 'bulb',
    'blocked-and-infected': feverish && disturbed && (isUrinary(drain.kind) || isBiliary(drain.kind)),
    'bleeding-and-faint': bloody && (general.includes('fainted') || general.includes('dizzy')),
    bleeding: bloody,
    'drain-moved': moved,
    'not-draining': notDraining && !out,
    'cap-failing': drain.capped && (feverish || leak || (report.symptoms?.pain ?? 0) >= CAPPED_PAIN),
    leak,
    'large-volume-now': pleural && largestMl > PLEURAL_NOW_ML,
    'large-volume': pleural && largestMl > PLEURAL_TODAY_ML && largestMl <= PLEURAL_NOW_ML,
    'flush-blocked': flushBlocked,
    'pink-fluid': looks('pink'),
    'cloudy-fluid': looks('cloudy', 'pus') && drain.kind !== 'collection',
    skin: skin('red', 'pus', 'broken'),
    dressing: dressings.some((dressing) => !dressing.changed && BAD_DRESSING.has(dressing.found ?? '')),
  })
}

/** Some blood is expected soon after a tube was put in, as in the rules. Clots never are. */
function isExpected(appearance: Appearance, at: string, { kind, placedAt }: AdviceDrain): boolean {
  const hours = (Date.parse(at) - Date.parse(placedAt)) / HOUR_MS
  if (hours < 0 || (appearance !== 'pink' && appearance !== 'red')) return false
  if (kind === 'bulb' || kind === 'pleural') return hours < RED_EXPECTED_H
  return appearance === 'pink' && hours < PINK_EXPECTED_H
}

const isFeverish = (symptoms: Submission['symptoms'], feverC: number): boolean =>
  (symptoms?.temperatureC ?? 0) >= feverC || symptoms?.chills === true

const when = (cases: Partial<Record<AdviceName, boolean>>): AdviceName[] =>
  adviceNames.filter((name) => cases[name] === true)
