import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { DrainSymptoms } from '@/lib/domain/record.ts'
import type { Submission } from '@/lib/domain/submission.ts'
import type { Appearance, DressingFound, Ease, General, Position, Skin } from '@/lib/domain/words.ts'

/**
 * What a person has answered so far, as typed. It is what the phone keeps until the receipt, so it holds
 * words and numbers as they were written, and nothing that names the person.
 */
export type YesNo = 'yes' | 'no' | 'unsure'
export type VolumeUnit = 'mL' | 'oz' | 'cup'

/**
 * 'Now' is fixed to the instant at which it was said: a report that is sent tomorrow keeps its time. 'At' is
 * the time of an earlier report that is being corrected, kept to the second.
 */
export type When =
  | { kind: 'now' }
  | { kind: 'earlier'; day: string; time: string }
  | { kind: 'at'; at: string }

export type DrainAnswers = {
  position?: Position | 'unsure'
  leak?: YesNo
  draining?: YesNo

  output?: 'measured' | 'nothing' | 'not-measured' | 'not-emptied'
  volume?: string
  unit?: VolumeUnit
  emptyings?: 'one' | 'several'
  /** How this phone was told before that the numbers of this drain are meant. */
  habit?: 'one' | 'several'
  outputWhen?: When
  outputNow?: string
  looks?: Appearance | 'unsure'
  /** One more emptying since the last report that was not measured, at a time of its own. */
  unmeasured?: boolean
  unmeasuredWhen?: When

  flushed?: 'yes' | 'no'
  flushVolume?: string
  flushEase?: Ease
  flushWhen?: When
  flushNow?: string

  dressingChanged?: 'yes' | 'no'
  dressingWhen?: When
  dressingNow?: string
  found?: DressingFound | 'unsure'
  skin?: Skin | 'unsure'
}

export type Draft = {
  /** The idempotency key of the report that this becomes: one draft is one report, from whichever tab. */
  key: string
  person: string
  startedAt: string
  savedAt: string
  /** The screen on which the person was. */
  step: string
  general: General[]
  /** Said in so many words: none of the general symptoms. */
  generalNone?: boolean
  drains: Record<string, DrainAnswers>
  temperature?: string
  noThermometer?: boolean
  chills?: YesNo
  pain?: number
  note?: string
  /** When the person last answered how they feel. */
  feltAt?: string
  /** Unusual values that were asked again and are meant: the value by its field. */
  sure: Record<string, string>
  /** Urgent advice that was shown and read. */
  adviceRead: string[]
  /** The screen that follows urgent advice. */
  afterAdvice?: string
  /** Set while one answer is changed from the summary: the way back. */
  returnTo?: string
  /** The report of a danger that went ahead of this one, which takes its place. */
  dangerSentKey?: string
  /** The dangers that it told of: only a further one is told again. */
  dangersSent?: string[]

  /** Set where this corrects a report: the report's id, or its key where this phone has not sent it yet. */
  supersedes?: string
  supersedesKey?: string
  /** The report as it was sent, for 'before' in the summary. */
  original?: Original
  /** Parts of that report for which the form has no place: they stay as they were sent. */
  carried?: Carried
}

export type Original = { sentAt: string; body: Submission }
export type Carried = Pick<Submission, 'readings' | 'flushes' | 'dressings'> & { symptoms?: DrainSymptoms[] }

export const newDraft = (view: CheckInView, key: string, now: string): Draft => ({
  key,
  person: view.patient.id,
  startedAt: now,
  savedAt: now,
  step: 'feel',
  general: [],
  drains: {},
  sure: {},
  adviceRead: [],
})

/** True when something was answered, so that it would be a loss. */
export const isBegun = (draft: Draft): boolean =>
  draft.general.length > 0 ||
  draft.generalNone === true ||
  Object.keys(draft.drains).length > 0 ||
  Boolean(draft.temperature || draft.noThermometer || draft.chills || draft.note) ||
  draft.pain !== undefined ||
  isCorrection(draft)

/** True when this takes the place of a report that was sent or waits to be sent. */
export const isCorrection = (draft: Draft): boolean =>
  draft.supersedes !== undefined || draft.supersedesKey !== undefined
