import { now as clock } from '../../clock.ts'
import { NewDraft } from '../../domain/rule-draft.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { standardRuleSet } from '../../rules/thresholds.ts'
import { answerOnce } from '../../store/answered.ts'
import { type Tx, write } from '../../store/index.ts'
import { newId, stored } from '../../store/rows.ts'
import { addDraft, addDraftStep, draftsOf } from '../../store/rule-drafts.ts'
import { parse } from '../week/parse.ts'
import { note } from './draft-of.ts'
import { lastOf, type Placed, placedSets } from './sets.ts'
import { withValues } from './values.ts'

/**
 * Writes a draft against the rule set that stands last. It changes nothing for any patient.
 * @throws Refusal invalid-input (out of range, with the range and its source; nothing that differs), key-reused
 */
export function writeDraft(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ draft: string; version: string }> {
  const { clinicId } = staff
  const at = stored(now)
  return write((tx) =>
    answerOnce(tx, { clinicId, source: staff.id, key, body: { ruleDraft: body } }, at, async () => {
      const { values, reason } = parse('draft', NewDraft, body)
      const { placed } = await placedSets(tx, clinicId)
      const base = lastOf(placed).set
      const version = await nextVersion(tx, clinicId, placed)
      const set = withValues(base, values, version, reason)
      const id = newId()
      const written = { recordedAt: at, recordedBy: staff.id }
      await addDraft(tx, { id, clinicId, version, body: set, baseVersion: base.version, reason, ...written })
      const step = {
        id: newId(),
        draftId: id,
        step: 'written' as const,
        replayId: null,
        why: reason,
        ...written,
      }
      await addDraftStep(tx, clinicId, step, set)
      await note(tx, staff, 'write-rule-draft', `wrote the draft ${version} of a rule set: ${reason}`, now)
      return { draft: id, version }
    }),
  )
}

/** A clinic's sets are counted on from the one that ships, which is the first: `2026.1/2` is its second. */
async function nextVersion(tx: Tx, clinicId: string, placed: readonly Placed[]): Promise<string> {
  const { rows, unreadable } = await draftsOf(tx, clinicId)
  const taken = new Set([...rows.map(({ version }) => version), ...placed.map(({ set }) => set.version)])
  let ordinal = rows.length + unreadable.length + 2
  while (taken.has(`${standardRuleSet.version}/${ordinal}`)) ordinal += 1
  return `${standardRuleSet.version}/${ordinal}`
}
