import type { Instant } from '@/lib/domain/instant.ts'
import { clockTime, fullDate, localDate } from '@/lib/domain/local-time.ts'
import type { DraftState, DraftStepKind, RuleSetInList } from '@/lib/domain/rule-draft.ts'

/** A moment with its year: rule sets stay for years. @example momentText('2026-11-24T14:34:00Z', 'America/Denver') // '24 Nov 2026, 07:34' */
export const momentText = (at: Instant, zone: string): string =>
  `${fullDate(localDate(at, zone))}, ${clockTime(at, zone)}`

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
  if (state === 'passed-over') return from === null ? '' : `would have come ${momentText(from, zone)}`
  const begins = from === null ? 'from the beginning' : `from ${momentText(from, zone)}`
  return until === null ? begins : `${begins} until ${momentText(until, zone)}`
}
