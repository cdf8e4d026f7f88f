import { now as clock } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import { BackTo } from '../../domain/rule-draft.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { answerOnce } from '../../store/answered.ts'
import { write } from '../../store/index.ts'
import { stored } from '../../store/rows.ts'
import { parse } from '../week/parse.ts'
import { note } from './draft-of.ts'
import { inForceOf, lastOf, type Placed, placedSets, type Sets, SHIPPED } from './sets.ts'
import { stand } from './stand.ts'

/**
 * Puts a set that was in force before in force again, at once and by one person: it was agreed upon already, and whoever
 * finds a set doing harm must not wait for a second. Sets that wait for their moment are taken back with it.
 * @throws Refusal not-found, conflict (it stands already; it never was in force), invalid-input, key-reused
 */
export function goBack(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ version: string }> {
  const { clinicId } = staff
  const at = stored(now)
  return write((tx) =>
    answerOnce(tx, { clinicId, source: staff.id, key, body: { backTo: body } }, at, async () => {
      const { set: id, why } = parse('step back', BackTo, body)
      const sets = await placedSets(tx, clinicId)
      const target = sets.placed.find(({ row }) => (row?.id ?? SHIPPED) === id)
      if (!target) throw new Refusal('not-found', 'There is no such rule set in this clinic.')
      const { version } = target.set
      await stand(tx, staff, { set: target.set, at, why, draft: null }, momentsTo(target, sets, at))
      await note(tx, staff, 'rule-set-back', `put the rule set ${version} in force again: ${why}`, now)
      return { version }
    }),
  )
}

/** From when on the earlier set is to stand: now, and in the place of each that was to come. */
function momentsTo(target: Placed, { placed, moments }: Sets, at: string): string[] {
  const { version } = target.set
  if (target.passedOverBy || (target.from !== null && target.from > at))
    throw new Refusal('conflict', `${version} has not been in force: there is nothing to go back to.`)
  if (placed.some(({ row }) => row !== null && row.recordedAt >= at))
    throw new Refusal('conflict', 'A rule set was recorded at this very moment: read the page again.')
  const inForce = inForceOf(placed, at)
  if (inForce.set.version === version && inForce === lastOf(placed))
    throw new Refusal('conflict', `${version} is in force already.`)
  const later = moments.filter((from) => from > at)
  return inForce.set.version === version ? later : [at, ...later]
}
