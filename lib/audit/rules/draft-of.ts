import { recordAccess } from '../../access/record.ts'
import { Refusal } from '../../domain/problem.ts'
import type { AttachedReplay, DraftStepKind } from '../../domain/rule-draft.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import type { StaffMember } from '../../domain/staff.ts'
import type { Tx } from '../../store/index.ts'
import { newId, stored } from '../../store/rows.ts'
import {
  addDraftStep,
  type DraftReplay,
  draftById,
  draftReplaysOf,
  draftStepsOf,
  type StoredDraft,
} from '../../store/rule-drafts.ts'
import { type Life, lifeOf } from './life.ts'
import { lastOf, type Placed, placedSets, type Sets } from './sets.ts'
import { differences, runnable } from './values.ts'

/** A draft with what decides on its next step. */
export type Draft = Sets & { draft: StoredDraft; life: Life; last: Placed; isStale: boolean }

/** One call of a step, with the draft as it stands. */
export type StepCall = Draft & { tx: Tx; staff: StaffMember; now: Date }

/** @throws Refusal not-found: none of this clinic */
export async function draftOf(tx: Tx, clinicId: string, id: string): Promise<Draft> {
  const draft = await draftById(tx, clinicId, id)
  if (!draft) throw new Refusal('not-found', 'There is no such draft in this clinic.')
  const { rows } = await draftStepsOf(tx, clinicId, id)
  const sets = await placedSets(tx, clinicId)
  const last = lastOf(sets.placed)
  return { ...sets, draft, life: lifeOf(rows), last, isStale: last.set.version !== draft.baseVersion }
}

/** The replays of a draft, the newest first; each says whether it ran the values that the draft has now. */
export async function replaysOf(
  tx: Tx,
  clinicId: string,
  { id, body }: { id: string; body: RuleSet },
): Promise<AttachedReplay[]> {
  const { rows } = await draftReplaysOf(tx, clinicId, id)
  return rows.map((replay) => attached(replay, body))
}

const attached = (replay: DraftReplay, draft: RuleSet): AttachedReplay => ({
  id: replay.id,
  state: replay.state,
  from: replay.from,
  until: replay.until,
  at: replay.recordedAt,
  isOfThis: differences(replay.body, draft).length === 0,
  gained: replay.result?.whole.flags.gained ?? null,
  lost: replay.result?.whole.flags.lost ?? null,
})

export const note = (tx: Tx, staff: StaffMember, action: string, what: string, now: Date): Promise<void> =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    role: staff.role,
    action,
    patientId: null,
    what,
  })

/** Keeps a step, and that it was taken stands in the access record. */
export async function keepStep(
  { tx, staff, draft, now }: StepCall,
  step: DraftStepKind,
  { why = null, replayId = null }: { why?: string | null; replayId?: string | null } = {},
  body: Draft['draft']['body'] | null = null,
): Promise<void> {
  const by = { recordedAt: stored(now), recordedBy: staff.id }
  const { clinicId } = staff
  await addDraftStep(tx, clinicId, { id: newId(), draftId: draft.id, step, why, replayId, ...by }, body)
  const says = `${draft.version}, draft of a rule set: ${step}${why === null ? '' : `. ${why}`}`
  await note(tx, staff, 'step-rule-draft', says, now)
}

/** @throws Refusal conflict: another set than the one it was written on stands now */
export function refuseIfStale({ draft, last, isStale }: StepCall): void {
  runnable(draft.body)
  if (isStale)
    throw new Refusal(
      'conflict',
      `This draft was written on ${draft.baseVersion}, and ${last.set.version} stands now: look at both, and put it on that first.`,
    )
}
