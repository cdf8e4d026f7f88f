import { type AdviceCase, adviceTexts } from './advice-texts.ts'
import { isBiliary, isUrinary } from './kinds.ts'
import { isLow } from './low-output.ts'
import type { Advice, Submission } from './submission.ts'
import type { Course, DrainKind } from './words.ts'

/** What advice needs to know of a drain. `recent` holds earlier readings in any order; without it only the
 * report itself is judged. */
export type AdviceDrain = {
  id: string
  kind: DrainKind
  course: Course
  capped: boolean
  recent?: readonly { at: string; volumeMl: number | null }[]
}

/** Fever from here on, in °C (rule set 2026.1). */
const FEVER_C = 38
/** Pain that is severe from here on, and that matters beside a capped tube, of 10 (rule set 2026.1). */
const SEVERE_PAIN = 7
const CAPPED_PAIN = 4
/** Pleural fluid in one reading, in mL (rule set 2026.1). */
const PLEURAL_TODAY_ML = 1000
const PLEURAL_NOW_ML = 1500

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
 * @example adviceFor({ symptoms: { at, drains: [{ drain: 'd1', position: 'out' }] } }, drains)[0].urgency // 'emergency'
 */
export function adviceFor(report: Submission, drains: readonly AdviceDrain[]): Advice[] {
  const cases = new Set([...casesOfPerson(report), ...drains.flatMap((drain) => casesOfDrain(report, drain))])
  for (const [strong, weaker] of Object.entries(supersedes))
    if (cases.has(strong as AdviceCase)) for (const name of weaker) cases.delete(name)
  if (cases.size === 0) cases.add('keep-watching')
  cases.add('clinic-first')
  return inOrder.filter((name) => cases.has(name)).map((name) => ({ ...adviceTexts[name] }))
}

/** Where two texts would send a person to two places, only the more urgent one is said. */
const supersedes: Partial<Record<AdviceCase, AdviceCase[]>> = {
  'blocked-and-infected': ['fever', 'not-draining', 'cap-failing', 'flush-blocked'],
  'bleeding-and-faint': ['bleeding', 'unwell'],
  'drain-out': ['leak', 'cap-failing'],
  'emergency-symptoms': ['unwell'],
  fever: ['cloudy-fluid', 'skin'],
}

/** The texts stand in their file in the order in which they are to be read: the most urgent first. */
const inOrder = Object.keys(adviceTexts) as AdviceCase[]

function casesOfPerson({ symptoms }: Submission): AdviceCase[] {
  const general = symptoms?.general ?? []
  return when({
    'emergency-symptoms': general.some((symptom) => EMERGENCY.has(symptom)),
    unwell: general.includes('vomiting') || general.includes('dizzy'),
    fever: isFeverish(symptoms),
    'severe-pain': (symptoms?.pain ?? 0) >= SEVERE_PAIN,
  })
}

function casesOfDrain(report: Submission, drain: AdviceDrain): AdviceCase[] {
  const mine = <T extends { drain: string }>(parts: T[] | undefined) =>
    (parts ?? []).filter((part) => part.drain === drain.id)
  const readings = mine(report.readings)
  const state = mine(report.symptoms?.drains)
  const dressings = mine(report.dressings)
  const general = report.symptoms?.general ?? []

  const looks = (...words: string[]) => readings.some((reading) => words.includes(reading.appearance ?? ''))
  const skin = (...words: string[]) => dressings.some((dressing) => words.includes(dressing.skin ?? ''))
  const largestMl = Math.max(0, ...readings.map((reading) => reading.volumeMl ?? 0))

  const out = state.some((part) => part.position === 'out')
  const moved = state.some((part) => part.position === 'moved')
  const leak = state.some((part) => part.leak === true)
  const flushBlocked = mine(report.flushes).some((flush) => flush.ease === 'blocked')
  // Little from a drain that should dwindle, or that is capped, is no alarm; 'not draining' is a person's own word.
  const little = drain.course === 'steady' && !drain.capped && isLow(readings, drain.recent ?? [])
  const notDraining = (!drain.capped && state.some((part) => part.draining === false)) || little

  const feverish = isFeverish(report.symptoms)
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

const isFeverish = (symptoms: Submission['symptoms']): boolean =>
  (symptoms?.temperatureC ?? 0) >= FEVER_C || symptoms?.chills === true

const when = (cases: Partial<Record<AdviceCase, boolean>>): AdviceCase[] =>
  inOrder.filter((name) => cases[name] === true)
