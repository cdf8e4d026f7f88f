import type { CheckInDrain, CheckInView } from '@/lib/domain/check-in.ts'
import { UNCONFIRMED_MAX_ML } from '@/lib/domain/limits.ts'
import type { DrainSymptoms } from '@/lib/domain/record.ts'
import type { Submission } from '@/lib/domain/submission.ts'
import type { Draft, DrainAnswers, YesNo } from './draft.ts'
import { emptyingsOf } from './emptyings.ts'
import { parseNumber, temperatureInC, volumeInMl } from './numbers.ts'
import { instantOf } from './times.ts'

/**
 * The report that the answers make so far. Only what was answered goes in: 'not sure' and what was left
 * open become nothing or null, never a 'no' and never a zero. Half an answer is left out, so that a
 * report can be sent from the middle of the form.
 */
export function submissionOf(draft: Draft, view: CheckInView, now: string): Submission {
  const drains = view.drains.map((drain) => ({ drain, answers: draft.drains[drain.id] ?? {} }))
  const { carried = {} } = draft
  const readings = drains.flatMap(({ drain, answers }) => [
    ...unmeasuredOf(drain, answers),
    ...readingOf(drain, answers, now),
  ])
  readings.push(...(carried.readings ?? []))
  const flushes = drains.flatMap(({ drain, answers }) => flushOf(drain, answers, now))
  flushes.push(...(carried.flushes ?? []))
  const dressings = drains.flatMap(({ drain, answers }) => dressingOf(drain, answers, now))
  dressings.push(...(carried.dressings ?? []))
  const symptoms = symptomsOf(draft, view, now)
  const note = draft.note?.trim()
  return {
    ...(readings.length ? { readings } : {}),
    ...(flushes.length ? { flushes } : {}),
    ...(dressings.length ? { dressings } : {}),
    ...(symptoms ? { symptoms } : {}),
    ...(note ? { note } : {}),
    ...replacedBy(draft),
  }
}

/** A report of a danger that went ahead is the newest of this draft, so it is that which gives way. */
const replacedBy = ({ dangerSentKey, supersedes, supersedesKey }: Draft) =>
  dangerSentKey !== undefined
    ? { supersedesKey: dangerSentKey }
    : supersedes !== undefined
      ? { supersedes }
      : supersedesKey !== undefined
        ? { supersedesKey }
        : {}

type Part<K extends 'readings' | 'flushes' | 'dressings'> = NonNullable<Submission[K]>

function readingOf(drain: CheckInDrain, answers: DrainAnswers, now: string): Part<'readings'> {
  const at = instantOf(answers.outputWhen, answers.outputNow ?? now)
  if (!at || !asksOutput(drain, answers) || !answers.output || answers.output === 'not-emptied') return []
  const typed = volumeInMl(answers.volume, answers.unit ?? 'mL')
  if (answers.output === 'measured' && typed === null) return []
  const volumeMl = answers.output === 'measured' ? typed : answers.output === 'nothing' ? 0 : null
  const looks = answers.output === 'nothing' ? undefined : answers.looks
  return [
    {
      drain: drain.id,
      at,
      volumeMl,
      ...(looks && looks !== 'unsure' ? { appearance: looks } : {}),
      ...(answers.output === 'measured' && emptyingsOf(answers, drain) === 'several' ? { total: true } : {}),
      ...((volumeMl ?? 0) > UNCONFIRMED_MAX_ML ? { confirmed: true } : {}),
    },
  ]
}

const asksOutput = (drain: CheckInDrain, answers: DrainAnswers) => !drain.capped && answers.position !== 'out'

/** An emptying that was not measured is a reading of its own, so that no later one covers the time before it. */
function unmeasuredOf(drain: CheckInDrain, answers: DrainAnswers): Part<'readings'> {
  const at = answers.unmeasuredWhen ? instantOf(answers.unmeasuredWhen, undefined) : null
  if (!at || !answers.unmeasured || !asksOutput(drain, answers)) return []
  return [{ drain: drain.id, at, volumeMl: null }]
}

function flushOf(drain: CheckInDrain, answers: DrainAnswers, now: string): Part<'flushes'> {
  const at = instantOf(answers.flushWhen, laterOf(answers.flushNow, answers.outputNow) ?? now)
  if (!at || !drain.flush || answers.position === 'out' || answers.flushed !== 'yes') return []
  return [
    {
      drain: drain.id,
      at,
      volumeMl: parseNumber(answers.flushVolume),
      ...(answers.flushEase ? { ease: answers.flushEase } : {}),
    },
  ]
}

/** One empties first, then flushes: said in one breath, the flush is never before the emptying. */
const laterOf = (a: string | undefined, b: string | undefined) => (a && b && b > a ? b : a)

function dressingOf(drain: CheckInDrain, answers: DrainAnswers, now: string): Part<'dressings'> {
  const { found, skin, dressingChanged } = answers
  const changed = dressingChanged === 'yes'
  const at = instantOf(changed ? answers.dressingWhen : undefined, answers.dressingNow ?? now)
  const known = {
    ...(found && found !== 'unsure' ? { found } : {}),
    ...(skin && skin !== 'unsure' ? { skin } : {}),
  }
  if (!at || (!changed && Object.keys(known).length === 0)) return []
  return [{ drain: drain.id, at, ...known, ...(dressingChanged ? { changed } : {}) }]
}

function symptomsOf(draft: Draft, view: CheckInView, now: string): Submission['symptoms'] {
  const carried = draft.carried?.symptoms ?? []
  const drains: DrainSymptoms[] = view.drains.flatMap((drain) => {
    const { position, leak, draining } = draft.drains[drain.id] ?? {}
    const said = {
      ...carried.find((state) => state.drain === drain.id),
      ...(position && position !== 'unsure' ? { position } : {}),
      ...(sure(leak) ? { leak: leak === 'yes' } : {}),
      ...(sure(draining) && !drain.capped && position !== 'out' ? { draining: draining === 'yes' } : {}),
    }
    return Object.keys(said).length ? [{ ...said, drain: drain.id }] : []
  })
  drains.push(...carried.filter((state) => !view.drains.some(({ id }) => id === state.drain)))
  const temperatureC = draft.noThermometer ? null : temperatureInC(draft.temperature)
  const generalSaid = draft.general.length > 0 || draft.generalNone === true
  const said = {
    ...(temperatureC === null ? {} : { temperatureC }),
    ...(sure(draft.chills) ? { chills: draft.chills === 'yes' } : {}),
    ...(draft.pain === undefined ? {} : { pain: draft.pain }),
    ...(drains.length ? { drains } : {}),
    ...(generalSaid ? { general: draft.general } : {}),
  }
  return Object.keys(said).length ? { at: draft.feltAt ?? now, ...said } : null
}

const sure = (answer: YesNo | undefined): answer is 'yes' | 'no' => answer === 'yes' || answer === 'no'
