import type { CheckInDrain, CheckInView, OwnReport } from '@/lib/domain/check-in.ts'
import type { DrainSymptoms } from '@/lib/domain/record.ts'
import type { Submission } from '@/lib/domain/submission.ts'
import { type Draft, type DrainAnswers, newDraft, type When, type YesNo } from './draft.ts'
import { writtenNumber } from './numbers.ts'
import { submissionOf } from './submission.ts'

/** A report that this phone has not sent yet: known by its key alone. */
export type UnsentReport = { key: string; body: Submission; confirmedAt: string }

/**
 * A report as the answers that made it, to be corrected. Its times stay its own. What the form has no place
 * for, a second reading of one drain or a drain that is no longer asked about, is carried along as it was
 * sent, so that a correction loses nothing that it does not change.
 */
export function draftFromReport(
  report: OwnReport | UnsentReport,
  view: CheckInView,
  key: string,
  now: string,
): Draft {
  const { body } = report
  const unsent = 'key' in report
  const symptoms = body.symptoms ?? null
  const draft: Draft = {
    ...newDraft(view, key, now),
    step: 'check',
    ...(unsent ? { supersedesKey: report.key } : { supersedes: report.report }),
    original: { sentAt: unsent ? report.confirmedAt : report.receivedAt, body },
    general: symptoms?.general ?? [],
    ...(symptoms?.general?.length === 0 ? { generalNone: true } : {}),
    ...(symptoms?.temperatureC == null ? {} : { temperature: writtenNumber(symptoms.temperatureC) }),
    ...(symptoms?.chills == null ? {} : { chills: yesOrNo(symptoms.chills) }),
    ...(symptoms?.pain == null ? {} : { pain: symptoms.pain }),
    ...(symptoms ? { feltAt: symptoms.at } : {}),
    ...(body.note ? { note: body.note } : {}),
    drains: Object.fromEntries(view.drains.map((drain) => [drain.id, answersOf(drain, body)])),
  }
  return withCarried(draft, view, body, now)
}

/** The answers of the report that a draft corrects, to set beside the new ones; null where it corrects none. */
export function originalDraft(draft: Pick<Draft, 'original'>, view: CheckInView): Draft | null {
  if (!draft.original) return null
  const { sentAt, body } = draft.original
  return draftFromReport({ key: '', body, confirmedAt: sentAt }, view, '', sentAt)
}

/** Answers as they were typed for a report, with the times that it gave: 'just now' was then. */
export function withTimesOf(body: Submission, draft: Draft, view: CheckInView): Draft {
  const drains = view.drains.map((drain) => {
    const { outputWhen, flushWhen, dressingWhen } = answersOf(drain, body)
    return [drain.id, { ...draft.drains[drain.id], ...given({ outputWhen, flushWhen, dressingWhen }) }]
  })
  return { ...draft, drains: { ...draft.drains, ...Object.fromEntries(drains) } }
}

const given = (answers: DrainAnswers): DrainAnswers =>
  Object.fromEntries(Object.entries(answers).filter(([, value]) => value !== undefined))

const yesOrNo = (value: boolean): YesNo => (value ? 'yes' : 'no')
const at = (instant: string): When => ({ kind: 'at', at: instant })

function answersOf(drain: CheckInDrain, body: Submission): DrainAnswers {
  /** In the order of their times: the form holds the latest. */
  const mine = <T extends { drain: string; at: string }>(parts: readonly T[] | undefined) =>
    (parts ?? [])
      .filter((part) => part.drain === drain.id)
      .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
  const state = body.symptoms?.drains?.find((one) => one.drain === drain.id)
  return {
    ...(state?.position ? { position: state.position } : {}),
    ...(state?.leak == null ? {} : { leak: yesOrNo(state.leak) }),
    ...(state?.draining == null ? {} : { draining: yesOrNo(state.draining) }),
    ...outputAnswers(mine(body.readings)),
    ...flushAnswers(mine(body.flushes)),
    ...dressingAnswers(mine(body.dressings)),
  }
}

type Part<K extends 'readings' | 'flushes' | 'dressings'> = NonNullable<Submission[K]>

function outputAnswers(sent: Part<'readings'>): DrainAnswers {
  // A sum that was not measured is no answer of the form.
  const readings = sent.filter((reading) => reading.volumeMl !== null || !reading.total)
  const main = readings.findLast((reading) => reading.volumeMl !== null) ?? readings.at(-1)
  if (!main) return {}
  const other = readings.find(
    (reading) => reading !== main && reading.volumeMl === null && !reading.appearance,
  )
  const nothing = main.volumeMl === 0 && !main.appearance && !main.total
  return {
    output: main.volumeMl === null ? 'not-measured' : nothing ? 'nothing' : 'measured',
    ...(main.volumeMl === null || nothing
      ? {}
      : { volume: writtenNumber(main.volumeMl), unit: 'mL' as const }),
    ...(main.volumeMl === null || nothing
      ? {}
      : { emptyings: main.total ? ('several' as const) : ('one' as const) }),
    outputWhen: at(main.at),
    ...(main.appearance ? { looks: main.appearance } : {}),
    ...(other ? { unmeasured: true, unmeasuredWhen: at(other.at) } : {}),
  }
}

function flushAnswers(flushes: Part<'flushes'>): DrainAnswers {
  const flush = flushes.at(-1)
  if (!flush) return {}
  return {
    flushed: 'yes',
    flushVolume: flush.volumeMl == null ? '' : writtenNumber(flush.volumeMl),
    ...(flush.ease ? { flushEase: flush.ease } : {}),
    flushWhen: at(flush.at),
  }
}

function dressingAnswers(dressings: Part<'dressings'>): DrainAnswers {
  const dressing = dressings.at(-1)
  if (!dressing) return {}
  return {
    ...(dressing.changed === undefined ? {} : { dressingChanged: yesOrNo(dressing.changed) as 'yes' | 'no' }),
    dressingWhen: at(dressing.at),
    dressingNow: dressing.at,
    ...(dressing.found ? { found: dressing.found } : {}),
    ...(dressing.skin ? { skin: dressing.skin } : {}),
  }
}

/** Finds by making the report again what the answers do not hold, and lays that beside them. */
function withCarried(draft: Draft, view: CheckInView, body: Submission, now: string): Draft {
  const made = submissionOf(draft, view, now)
  const readings = lacking(body.readings, made.readings)
  const flushes = lacking(body.flushes, made.flushes)
  const dressings = lacking(body.dressings, made.dressings)
  const symptoms = lackingOfDrains(body.symptoms?.drains, made.symptoms?.drains)
  const carried = {
    ...(readings.length ? { readings } : {}),
    ...(flushes.length ? { flushes } : {}),
    ...(dressings.length ? { dressings } : {}),
    ...(symptoms.length ? { symptoms } : {}),
  }
  return Object.keys(carried).length ? { ...draft, carried } : draft
}

/** The parts that were sent and are not made again. */
function lacking<T extends object>(sent: readonly T[] | undefined, made: readonly T[] | undefined): T[] {
  const rest = (made ?? []).map(plain)
  return (sent ?? []).filter((part) => {
    const found = rest.indexOf(plain(part))
    if (found >= 0) rest.splice(found, 1)
    return found < 0
  })
}

/** What a part says: what is null, and a 'no' of a mark that is no by itself, is as if it were left out. */
const plain = (part: object): string =>
  JSON.stringify(
    Object.entries(part)
      .filter(([name, value]) => value != null && name !== 'confirmed' && !(name === 'total' && !value))
      .sort(([a], [b]) => a.localeCompare(b)),
  )

/** What was said of a drain and is not asked now: the rest of its statement. */
function lackingOfDrains(
  sent: DrainSymptoms[] | undefined,
  made: DrainSymptoms[] | undefined,
): DrainSymptoms[] {
  return (sent ?? []).flatMap((statement) => {
    const again = (made ?? []).find(({ drain }) => drain === statement.drain)
    const rest = Object.entries(statement).filter(
      ([name, value]) => name !== 'drain' && value != null && again?.[name as keyof DrainSymptoms] == null,
    )
    return rest.length ? [{ drain: statement.drain, ...Object.fromEntries(rest) }] : []
  })
}
