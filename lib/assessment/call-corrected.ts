import type { FlagStep } from '../domain/flag.ts'
import { urgencyRank } from '../domain/words.ts'
import type { KeptFlag } from '../store/flags.ts'
import { dueFrom, isPressing, stands } from './flag-life.ts'

/** The flags of a patient that a call at that moment moved. */
export const spokenOf = (flags: readonly KeptFlag[], callAt: string): KeptFlag[] =>
  flags.filter(({ openedAt, spokenAt }) => openedAt <= callAt && spokenAt === callAt)

/** What a call closed, waiting for another time to look again than it had said. Pure. */
export const withOtherTime = (
  touched: readonly KeptFlag[],
  call: { at: string; lookAgainAt: string | null },
  lookAgainAt: string | null,
): KeptFlag[] =>
  touched
    .filter((flag) => flag.state === 'closed' && flag.closedAt === call.at)
    .filter((flag) => flag.lookAgainAt === call.lookAgainAt && call.lookAgainAt !== null)
    .map((flag) => ({ ...flag, lookAgainAt }))

/**
 * What a call had moved that reached nobody after all, as it stands without it. Pure.
 * @param steps all steps of these flags, the earliest first
 */
export const withoutCall = (
  touched: readonly KeptFlag[],
  living: readonly KeptFlag[],
  steps: readonly FlagStep[],
  calledAt: string,
): KeptFlag[] => touched.flatMap((flag) => giveBack(asPressing(flag, steps, calledAt), living))

/** A flag that eased because of the call is as urgent as it was before: its urgency falls only once somebody was spoken to. */
function asPressing(flag: KeptFlag, steps: readonly FlagStep[], calledAt: string): KeptFlag {
  const own = steps.filter(({ flagId }) => flagId === flag.id)
  const eased = own.findIndex(({ kind, at }) => kind === 'eased' && at >= calledAt)
  const before = own[eased - 1]
  if (!before || urgencyRank[before.urgency] <= urgencyRank[flag.urgency]) return flag
  const { urgency } = before
  const began = own.slice(0, eased).find((one) => one.urgency === urgency) ?? before
  return { ...flag, urgency, since: began.at, actBy: dueFrom(began.at, urgency) }
}

/** A flag of which nobody has spoken to the patient: it stands as it did, if no other of its kind stands meanwhile. */
function giveBack(flag: KeptFlag, living: readonly KeptFlag[]): KeptFlag[] {
  const unspoken = { ...flag, spokenAt: null }
  if (stands(flag)) return [unspoken]
  const isReplaced = living.some(
    (other) =>
      other.id !== flag.id && other.code === flag.code && other.drain === flag.drain && stands(other),
  )
  const holds = flag.state === 'closed' && flag.holdsStill
  if (isReplaced || !(holds || isPressing(flag.urgency))) return []
  return [
    {
      ...unspoken,
      state: holds ? 'open' : 'owed',
      closedAt: null,
      closedBy: null,
      closedFinding: null,
      lookAgainAt: null,
      endedAt: null,
      holdsStill: true,
    },
  ]
}
