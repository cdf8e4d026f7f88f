import { dateAndTime } from '@/lib/domain/local-time.ts'
import type { DraftState, DraftStepKind, RuleSetInList } from '@/lib/domain/rule-draft.ts'

export const setStateLabels: Readonly<Record<RuleSetInList['state'], string>> = {
  'in-force': 'In force',
  waiting: 'Waits for its moment',
  earlier: 'Earlier',
  'passed-over': 'Taken back before its moment',
}

export const draftStateLabels: Readonly<Record<DraftState, string>> = {
  written: 'Written, not proposed',
  proposed: 'Proposed, waits for a second person',
  approved: 'Approved, not in force',
  'in-force': 'Put in force',
  withdrawn: 'Withdrawn',
}

export const stepLabels: Readonly<Record<DraftStepKind, string>> = {
  written: 'Written',
  changed: 'Changed',
  proposed: 'Proposed',
  approved: 'Approved',
  'looked-again': 'Looked at again',
  'in-force': 'Put in force',
  withdrawn: 'Withdrawn',
}

/** From when to when a set is or was in force. */
export function spanText({ from, until, state }: RuleSetInList, zone: string): string {
  if (state === 'passed-over') return from === null ? '' : `would have come ${dateAndTime(from, zone)}`
  const begins = from === null ? 'from the beginning' : `from ${dateAndTime(from, zone)}`
  return until === null ? begins : `${begins} until ${dateAndTime(until, zone)}`
}
