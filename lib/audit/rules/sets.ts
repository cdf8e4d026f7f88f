import type { RuleSetInList, RuleSetName } from '../../domain/rule-draft.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { RuleSet as Shape } from '../../domain/ruleset.ts'
import { standardRuleSet } from '../../rules/thresholds.ts'
import { hashOfBody } from '../../store/hashes.ts'
import type { Tx } from '../../store/index.ts'
import { ruleSetsOf, type StoredRuleSet } from '../../store/rule-sets.ts'
import { differences } from './values.ts'

/** The id by which the set that ships is named where it is gone back to. */
export const SHIPPED = 'shipped'

/** One coming into force. `row` null: the set that ships, from the beginning. `until` null: nothing follows it. */
export type Placed = {
  row: StoredRuleSet | null
  set: RuleSet
  from: string | null
  until: string | null
  /** The row that took its place before its moment. */
  passedOverBy: StoredRuleSet | null
}

/** One hash for one rule set, whatever the order of its thresholds: SHA-256 of its canonical JSON. */
export const nameOf = (set: RuleSet): RuleSetName => ({ version: set.version, hash: hashOfBody(set) })

/** `moments`: every instant at which a row of the store comes into force. */
export type Sets = { placed: Placed[]; moments: string[]; unreadable: string[] }

/** Every coming into force in its order, beginning with the set that ships, and what could not be read. */
export async function placedSets(tx: Tx, clinicId: string): Promise<Sets> {
  const { rows, unreadable } = await ruleSetsOf(tx, clinicId)
  const placed: Placed[] = [{ row: null, set: standardRuleSet, from: null, until: null, passedOverBy: null }]
  const bad = unreadable.map(({ what, id, why }) => `${what} ${id}: ${why}`)
  for (const row of rows) {
    const set = readSet(row.body)
    if (set) place(placed, row, set)
    else bad.push(`rule set ${row.version}: its body cannot be read`)
  }
  return { placed, moments: [...new Set(rows.map(({ inForceFrom }) => inForceFrom))], unreadable: bad }
}

/** Of two with one moment the one recorded last counts, as the rules read them; a set that stands already does not come again. */
function place(placed: Placed[], row: StoredRuleSet, set: RuleSet): void {
  const before = lastOf(placed)
  if (before.from === row.inForceFrom) before.passedOverBy = row
  const last = lastOf(placed)
  const isAgain = last.set.version === set.version
  last.until = isAgain ? null : row.inForceFrom
  if (!isAgain) placed.push({ row, set, from: row.inForceFrom, until: null, passedOverBy: null })
}

function readSet(body: string): RuleSet | null {
  try {
    const { version, thresholds } = Shape.parse(JSON.parse(body))
    return { version, thresholds: { ...standardRuleSet.thresholds, ...thresholds } }
  } catch {
    return null
  }
}

export const standing = (placed: readonly Placed[]): Placed[] =>
  placed.filter(({ passedOverBy }) => passedOverBy === null)

/** The set that stands last: in force, or waiting for its moment. Drafts are written against it. */
export function lastOf(placed: readonly Placed[]): Placed {
  const last = standing(placed).at(-1)
  if (!last) throw new Error('rule sets: none stands')
  return last
}

export function inForceOf(placed: readonly Placed[], at: string): Placed {
  const found = standing(placed).findLast(({ from }) => from === null || from <= at)
  if (!found) throw new Error('rule sets: none is in force')
  return found
}

/** The list as a page shows it, the newest first. */
export function listed(
  placed: readonly Placed[],
  at: string,
  staffName: (id: string) => string,
): RuleSetInList[] {
  const inForce = inForceOf(placed, at)
  const last = lastOf(placed)
  const stateOf = (one: Placed): RuleSetInList['state'] => {
    if (one.passedOverBy) return 'passed-over'
    if (one === inForce) return 'in-force'
    return one.from !== null && one.from > at ? 'waiting' : 'earlier'
  }
  return placed
    .filter(({ passedOverBy, row }) => passedOverBy === null || row?.draftId !== null)
    .map((one): RuleSetInList => {
      const { row, set, from, until } = one
      const state = stateOf(one)
      return {
        id: row?.id ?? SHIPPED,
        ...nameOf(set),
        from,
        until,
        state,
        takenBack: one.passedOverBy && {
          by: staffName(one.passedOverBy.recordedBy),
          at: one.passedOverBy.recordedAt,
          why: one.passedOverBy.why,
        },
        by: row ? staffName(row.recordedBy) : null,
        recordedAt: row?.recordedAt ?? null,
        why: row?.why ?? null,
        draft: row?.draftId ?? null,
        changes: differences(standardRuleSet, set),
        canReturn:
          (state === 'earlier' && set.version !== last.set.version) ||
          (state === 'in-force' && last !== inForce && set.version !== last.set.version),
      }
    })
    .toReversed()
}
