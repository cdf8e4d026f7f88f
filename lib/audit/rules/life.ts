import type { DraftState } from '../../domain/rule-draft.ts'
import type { StoredDraftStep } from '../../store/rule-drafts.ts'

/** How long whoever is alone in a clinic waits before the second look. */
export const WAIT_HOURS = 24
const WAIT_MS = WAIT_HOURS * 3_600_000

/** How a draft stands, and the steps that its state rests on. */
export type Life = {
  state: DraftState
  proposed: StoredDraftStep | null
  /** An approval, or a second look. */
  approved: StoredDraftStep | null
  /** What ended it. */
  ended: StoredDraftStep | null
}

/** Reads a draft's steps, given in their order. A change takes the proposal and the approval before it back. */
export function lifeOf(steps: readonly StoredDraftStep[]): Life {
  const life: Life = { state: 'written', proposed: null, approved: null, ended: null }
  for (const step of steps) {
    if (step.step === 'changed') Object.assign(life, { state: 'written', proposed: null, approved: null })
    if (step.step === 'proposed') Object.assign(life, { state: 'proposed', proposed: step })
    if (step.step === 'approved' || step.step === 'looked-again')
      Object.assign(life, { state: 'approved', approved: step })
    if (step.step === 'in-force' || step.step === 'withdrawn')
      Object.assign(life, { state: step.step, ended: step })
  }
  return life
}

/** When the second look is due at the earliest. */
export const secondLookFrom = (proposed: StoredDraftStep): string =>
  new Date(Date.parse(proposed.recordedAt) + WAIT_MS).toISOString()
