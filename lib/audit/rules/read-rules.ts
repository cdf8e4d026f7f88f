import { now as clock } from '../../clock.ts'
import { localDate } from '../../domain/local-time.ts'
import type {
  DraftBeginning,
  DraftInList,
  DraftPage,
  NamedThreshold,
  RulesPage,
} from '../../domain/rule-draft.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { standardRuleSet } from '../../rules/thresholds.ts'
import { clinicById } from '../../store/clinics.ts'
import { snapshot, type Tx, write } from '../../store/index.ts'
import { firstReportAt } from '../../store/replay-history.ts'
import { grouped, stored } from '../../store/rows.ts'
import { draftStepsOf, draftsOf, physiciansOf } from '../../store/rule-drafts.ts'
import { staffNamesOf } from '../../store/staff-names.ts'
import { draftOf, note, replaysOf } from './draft-of.ts'
import { lifeOf, secondLookFrom } from './life.ts'
import { ownThresholds } from './own-thresholds.ts'
import { inForceOf, lastOf, listed, nameOf, type Placed, placedSets } from './sets.ts'
import { differences } from './values.ts'

/** The clinic's rule sets, drafts, and what was set for single drains. Who sees those patients stands in the access record. */
export async function readRules(staff: StaffMember, now: Date = clock()): Promise<RulesPage> {
  const { clinicId } = staff
  const at = stored(now)
  const page = await snapshot(async (tx): Promise<RulesPage> => {
    const nameBy = await namesBy(tx, clinicId)
    const { placed, unreadable } = await placedSets(tx, clinicId)
    const { own, unreadable: badOwn } = await ownThresholds(
      tx,
      clinicId,
      inForceOf(placed, at).set,
      at,
      nameBy,
    )
    const drafts = await listedDrafts(tx, clinicId, placed, nameBy)
    return {
      ...(await headOf(tx, clinicId, at)),
      sets: listed(placed, at, nameBy),
      drafts: drafts.drafts,
      own,
      unreadable: [...unreadable, ...badOwn, ...drafts.unreadable],
    }
  })
  const seen = [...new Set(page.own.map(({ patientId }) => patientId))]
  const whom = seen.length > 0 ? `, with the own thresholds of ${seen.join(' ')}` : ''
  await write((tx) => note(tx, staff, 'view-rule-sets', `opened the rule sets${whom}`, now))
  return page
}

async function listedDrafts(
  tx: Tx,
  clinicId: string,
  placed: readonly Placed[],
  nameBy: (id: string) => string,
): Promise<{ drafts: DraftInList[]; unreadable: string[] }> {
  const { rows, unreadable } = await draftsOf(tx, clinicId)
  const steps = grouped((await draftStepsOf(tx, clinicId)).rows, ({ draftId }) => draftId)
  const stands = lastOf(placed).set.version
  const drafts = rows.map(({ id, version, baseVersion, reason, recordedAt, recordedBy }): DraftInList => {
    const { state } = lifeOf(steps.get(id) ?? [])
    const isOver = state === 'in-force' || state === 'withdrawn'
    return {
      ...{ id, version, reason, state },
      base: baseVersion,
      by: nameBy(recordedBy),
      at: recordedAt,
      isStale: !isOver && baseVersion !== stands,
    }
  })
  return { drafts, unreadable: unreadable.map(({ what, id, why }) => `${what} ${id}: ${why}`) }
}

/** What a new draft begins with. */
export const readBeginning = (staff: StaffMember, now: Date = clock()): Promise<DraftBeginning> =>
  snapshot(async (tx) => {
    const { placed } = await placedSets(tx, staff.clinicId)
    return beginning(tx, staff.clinicId, lastOf(placed), stored(now))
  })

async function beginning(
  tx: Tx,
  clinicId: string,
  { set, from }: Placed,
  at: string,
): Promise<DraftBeginning> {
  const base = { ...nameOf(set), from }
  return { ...(await headOf(tx, clinicId, at)), base, thresholds: namedThresholds(set) }
}

const namedThresholds = (set: RuleSet): NamedThreshold[] =>
  Object.entries(standardRuleSet.thresholds).map(([name, shipped]) => ({
    name,
    ...shipped,
    ...set.thresholds[name],
    shipped: shipped.value,
  }))

/**
 * One draft, with its steps, its replays and what it changes.
 * @throws Refusal not-found
 */
export const readDraft = (staff: StaffMember, id: string, now: Date = clock()): Promise<DraftPage> =>
  snapshot(async (tx) => {
    const { clinicId } = staff
    const { draft, life, placed, last, isStale } = await draftOf(tx, clinicId, id)
    const nameBy = await namesBy(tx, clinicId)
    const { proposed } = life
    const others = (await physiciansOf(tx, clinicId)).filter((one) => one.id !== proposed?.recordedBy)
    const isOver = life.state === 'in-force' || life.state === 'withdrawn'
    const isAlone = proposed !== null && others.length === 0
    return {
      ...(await beginning(tx, clinicId, last, stored(now))),
      id,
      ...nameOf(draft.body),
      reason: draft.reason,
      state: life.state,
      writtenOn: draft.baseVersion,
      isStale: isStale && !isOver,
      changes: changesOf(draft.body, draft.baseVersion, placed, isOver),
      steps: (await draftStepsOf(tx, clinicId, id)).rows.map(
        ({ step, recordedAt, recordedBy, why, replayId }) => ({
          step,
          at: recordedAt,
          by: nameBy(recordedBy),
          why,
          replay: replayId,
        }),
      ),
      proposedBy: proposed && { id: proposed.recordedBy, name: nameBy(proposed.recordedBy) },
      others: others.map(({ name }) => name),
      lookAgainFrom: proposed && isAlone ? secondLookFrom(proposed) : null,
      replays: await replaysOf(tx, clinicId, draft),
      history: await historyOf(tx, clinicId, now),
    }
  })

/** From the first report to today, by the clinic's calendar. */
async function historyOf(tx: Tx, clinicId: string, now: Date): Promise<DraftPage['history']> {
  const firstAt = await firstReportAt(tx, clinicId)
  const zone = (await clinicById(tx, clinicId))?.timeZone ?? 'UTC'
  return firstAt === null ? null : { first: localDate(firstAt, zone), last: localDate(now.getTime(), zone) }
}

/** Every threshold in which the draft, the set that it was written on and the one that stands are not all alike. */
function changesOf(
  body: RuleSet,
  baseVersion: string,
  placed: readonly Placed[],
  isOver: boolean,
): DraftPage['changes'] {
  const base = placed.find(({ set }) => set.version === baseVersion)?.set ?? standardRuleSet
  const stands = isOver ? base : lastOf(placed).set
  const names = new Set([...differences(base, body), ...differences(base, stands)].map(({ name }) => name))
  return Object.entries(standardRuleSet.thresholds).flatMap(([name, { unit, value }]) => {
    const of = (set: RuleSet) => set.thresholds[name]?.value ?? value
    return names.has(name) ? [{ name, unit, base: of(base), inForce: of(stands), value: of(body) }] : []
  })
}

async function headOf(tx: Tx, clinicId: string, asOf: string): Promise<Pick<RulesPage, 'asOf' | 'clinic'>> {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Error(`audit: there is no clinic ${clinicId}`)
  const { name, timeZone, demo } = clinic
  return { asOf, clinic: { name, timeZone, demo } }
}

async function namesBy(tx: Tx, clinicId: string): Promise<(id: string) => string> {
  const names = await staffNamesOf(tx, clinicId)
  return (id) => names.get(id) ?? id
}
