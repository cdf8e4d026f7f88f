import type { Agreed, AttemptOutcome, NewCallback, SpokenTo } from '@/lib/domain/callback.ts'
import type { Flag } from '@/lib/domain/flag.ts'
import { addDays, instantOf, localDate, localParts, weekday, withOffset } from '@/lib/domain/local-time.ts'

/** What the form of a call holds while it is filled in. `lookAgain` is a local time of the clinic, or empty. */
export type CallDraft = {
  outcome: AttemptOutcome | null
  spokenTo: SpokenTo | null
  agreed: Agreed[]
  closes: string[]
  lookAgain: string
  note: string
}

export const emptyDraft: CallDraft = {
  outcome: null,
  spokenTo: null,
  agreed: [],
  closes: [],
  lookAgain: '',
  note: '',
}

const isPressing = ({ state, urgency }: Pick<Flag, 'state' | 'urgency'>) =>
  state === 'open' && (urgency === 'at-once' || urgency === 'within-1h')

/** Whether a time to look again must be given: something of within an hour or sooner is closed and still holds. */
export const needsLookAgain = (
  flags: readonly Pick<Flag, 'id' | 'state' | 'urgency'>[],
  closes: readonly string[],
): boolean => flags.some((flag) => closes.includes(flag.id) && isPressing(flag))

export type DraftFaults = Partial<Record<keyof CallDraft, string>>

/** What is still to be said before the call can be sent. */
export function draftFaults(
  draft: CallDraft,
  flags: readonly Flag[],
  now: number,
  clinicZone: string,
): DraftFaults {
  const faults: DraftFaults = {}
  if (draft.outcome === null) faults.outcome = 'Say how the call ended.'
  if (draft.outcome !== 'reached') return faults
  if (draft.spokenTo === null) faults.spokenTo = 'Say whom you spoke to.'
  if (draft.agreed.length === 0) faults.agreed = 'Say what was agreed, at least one.'
  const at = draft.lookAgain ? instantOf(draft.lookAgain, clinicZone) : null
  if (draft.lookAgain && at === null) faults.lookAgain = 'Give a day and a time.'
  else if (at !== null && Date.parse(at) <= now) faults.lookAgain = 'This time has passed; give one ahead.'
  else if (at === null && needsLookAgain(flags, draft.closes))
    faults.lookAgain = 'What you close still holds: say when to look again.'
  return faults
}

/** The call as the door takes it. */
export function toCallback(draft: CallDraft, clinicZone: string): NewCallback {
  const note = draft.note.trim()
  const rest = note ? { note } : {}
  if (draft.outcome !== 'reached') return { outcome: draft.outcome ?? 'no-answer', ...rest }
  return {
    outcome: 'reached',
    spokenTo: draft.spokenTo,
    agreed: draft.agreed,
    closes: draft.closes,
    lookAgainAt: draft.lookAgain ? instantOf(draft.lookAgain, clinicZone) : null,
    ...rest,
  }
}

const HOUR_MS = 3_600_000

/** Times that are often meant, as clinic-local input values: hours from now, this evening, the mornings ahead. */
export function quickPicks(now: number, clinicZone: string): { text: string; value: string }[] {
  const today = localDate(now, clinicZone)
  const { hour } = localParts(now, clinicZone)
  const inHours = (hours: number) => withOffset(now + hours * HOUR_MS, clinicZone).slice(0, 16)
  const tomorrow = addDays(today, 1)
  const dayAfter = addDays(today, 2)
  return [
    { text: 'In 1 hour', value: inHours(1) },
    { text: 'In 4 hours', value: inHours(4) },
    ...(hour < 17 ? [{ text: 'Today 18:00', value: `${today}T18:00` }] : []),
    { text: 'Tomorrow 08:00', value: `${tomorrow}T08:00` },
    { text: `${weekday(dayAfter)} 08:00`, value: `${dayAfter}T08:00` },
  ]
}
