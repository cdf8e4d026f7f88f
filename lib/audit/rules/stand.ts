import type { RuleSet } from '../../domain/ruleset.ts'
import type { StaffMember } from '../../domain/staff.ts'
import type { Tx } from '../../store/index.ts'
import { newId } from '../../store/rows.ts'
import { addRuleSet, markDueAt } from '../../store/rule-sets.ts'
import { runnable } from './values.ts'

type Standing = { set: RuleSet; at: string; why: string; draft: string | null }

/**
 * Makes a set the one that stands from its first moment on, at each later moment too at which another was to come, and every
 * patient due for a new assessment then.
 */
export async function stand(
  tx: Tx,
  { id: recordedBy, clinicId }: StaffMember,
  { set, at, why, draft }: Standing,
  moments: readonly string[],
): Promise<void> {
  const body = JSON.stringify(runnable(set))
  for (const [i, inForceFrom] of moments.entries()) {
    // The row's own name. What it holds is a set by its version and its hash, which may have been in force before.
    const isFirst = draft !== null && i === 0
    const version = isFirst ? set.version : `${set.version}, from ${inForceFrom}, set ${at}`
    await addRuleSet(tx, {
      ...{ id: newId(), clinicId, version, body, inForceFrom, why },
      ...{ recordedAt: at, recordedBy, draftId: draft },
    })
    await markDueAt(tx, clinicId, inForceFrom)
  }
}
