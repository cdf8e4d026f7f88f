import type {
  Agreed,
  AskedAnswer,
  AttemptOutcome,
  Callback,
  CallCorrection,
  Direction,
  NewCallback,
  SpokenNow,
} from '@/lib/domain/callback.ts'
import type { Flag } from '@/lib/domain/flag.ts'
import { addDays, instantOf, localDate, localParts, weekday, withOffset } from '@/lib/domain/local-time.ts'
import { outcomeFaults } from '@/lib/domain/outcome-fits.ts'

/** What the form of a call holds while it is filled in. `lookAgain` is a local time of the clinic, or empty. */
export type CallDraft = {
  direction: Direction
  /** Whom of the contacts was called, by name; null: the patient. */
  contact: string | null
  outcome: AttemptOutcome | null
  spokenTo: SpokenNow | null
  interpreter: boolean
  agreed: Agreed[]
  teachBack: boolean | null
  closes: string[]
  lookAgain: string
  note: string
}

export const emptyDraft: CallDraft = {
  direction: 'we-called',
  contact: null,
  outcome: null,
  spokenTo: null,
  interpreter: false,
  agreed: [],
  teachBack: null,
  closes: [],
  lookAgain: '',
  note: '',
}

/** What is on record of a call, to be corrected. A call recorded of old as 'through an interpreter' does not say who spoke. */
export const draftOf = (call: Callback, clinicZone: string): CallDraft => ({
  ...emptyDraft,
  direction: call.direction,
  contact: call.contact,
  outcome: call.outcome,
  spokenTo: call.spokenTo === 'interpreter' ? null : call.spokenTo,
  interpreter: call.interpreter || call.spokenTo === 'interpreter',
  agreed: call.agreed,
  teachBack: call.teachBack,
  lookAgain: call.lookAgainAt ? withOffset(Date.parse(call.lookAgainAt), clinicZone).slice(0, 16) : '',
  note: call.note,
})

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
  const faults = saidFaults(draft, clinicZone)
  if (draft.outcome !== 'reached') return faults
  const at = draft.lookAgain ? instantOf(draft.lookAgain, clinicZone) : null
  if (at !== null && Date.parse(at) <= now) faults.lookAgain = 'This time has passed; give one ahead.'
  else if (at === null && !faults.lookAgain && needsLookAgain(flags, draft.closes))
    faults.lookAgain = 'What you close still holds: say when to look again.'
  if (draft.agreed.length === 0) return faults
  const closing = flags.filter(({ id, state }) => draft.closes.includes(id) || state === 'owed')
  const said = { agreed: draft.agreed, lookAgainAt: at, note: draft.note }
  const [misfit] = outcomeFaults(closing, said, now)
  // Where the time to look again is missing as well, that is said first: it may be all that is.
  if (misfit && !faults.lookAgain) faults.agreed = `This ${misfit.message}.`
  return faults
}

/** What is still to be said of a correction: the flags that the call closed are the server's to judge. */
export function saidFaults(draft: CallDraft, clinicZone: string): DraftFaults {
  const faults: DraftFaults = {}
  if (draft.outcome === null) faults.outcome = 'Say how the call ended.'
  if (draft.outcome !== 'reached') return faults
  if (draft.spokenTo === null) faults.spokenTo = 'Say whom you spoke to.'
  if (draft.agreed.length === 0) faults.agreed = 'Say what was agreed, at least one.'
  if (draft.lookAgain && instantOf(draft.lookAgain, clinicZone) === null)
    faults.lookAgain = 'Give a day and a time.'
  return faults
}

/** The call as the door takes it. */
export function toCallback(
  draft: CallDraft,
  clinicZone: string,
  asked: readonly AskedAnswer[] = [],
): NewCallback {
  const { direction, contact, closes } = draft
  const how = { direction, ...(contact === null ? {} : { contact }) }
  const said = toSaid(draft, clinicZone)
  if (said.outcome !== 'reached') return { ...how, ...said }
  return { ...how, ...said, closes, ...(asked.length > 0 ? { asked: [...asked] } : {}) }
}

/** The correction as the door takes it. */
export const toCorrection = (draft: CallDraft, why: string, clinicZone: string): CallCorrection => ({
  ...toSaid(draft, clinicZone),
  why: why.trim(),
})

function toSaid(draft: CallDraft, clinicZone: string): Omit<CallCorrection, 'why'> {
  const note = draft.note.trim()
  const rest = note ? { note } : {}
  if (draft.outcome !== 'reached') return { outcome: draft.outcome ?? 'no-answer', ...rest }
  return {
    outcome: 'reached',
    spokenTo: draft.spokenTo,
    interpreter: draft.interpreter,
    agreed: draft.agreed,
    teachBack: draft.teachBack,
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
