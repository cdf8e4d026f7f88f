import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { standingCalls } from '../../domain/callback.ts'
import { capital } from '../../domain/capital.ts'
import {
  agreedLabels,
  directionLabels,
  findingLabels,
  flagStateLabels,
  outcomeLabels,
  stepLabels,
  urgencyLabels,
} from '../../domain/labels.ts'
import { outsideEventLabels } from '../../domain/outcomes-page.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { DAYS_AFTER, type Happened } from '../../domain/week-page.ts'
import { answerOnce } from '../../store/answered.ts'
import { callbacksOf } from '../../store/callbacks.ts'
import { drainsOf } from '../../store/drains.ts'
import { flagsByIds, flagsSince, stepsSince } from '../../store/flags.ts'
import { type Tx, write } from '../../store/index.ts'
import { outsideEventsOf } from '../../store/outside-events.ts'
import { itemById, type KeptItem, ruleSetOfFlag } from '../../store/review-items.ts'
import { openedEntry, readersOf, reviewsOf } from '../../store/reviews.ts'
import { newId, stored } from '../../store/rows.ts'
import { staffNamesOf } from '../../store/staff-names.ts'
import { noItem } from './save-review.ts'
import { turnOf } from './task.ts'

const DAY_MS = 86_400_000
const CALLS = 200

/**
 * What happened: whether the item was a flag, who called when and with what outcome, and what came later. Opens to
 * whoever has given a verdict and has no blind reading of it before them; that it was opened is kept, so that a
 * verdict that is changed afterwards says so.
 * @throws Refusal not-found, conflict (no verdict yet), key-reused
 */
export function openItem(
  staff: StaffMember,
  itemId: string,
  key: string = newId(),
  now: Date = clock(),
): Promise<Happened> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { open: itemId } }
  return write((tx) => answerOnce(tx, request, stored(now), () => open(tx, staff, itemId, now)))
}

async function open(tx: Tx, staff: StaffMember, itemId: string, now: Date): Promise<Happened> {
  const { clinicId } = staff
  const item = await itemById(tx, clinicId, itemId)
  if (!item) throw noItem()
  const { rows: reviews } = await reviewsOf(tx, [itemId])
  const own = reviews.findLast(({ byId }) => byId === staff.id)
  const { task, notBefore } = turnOf(item.twice, reviews, staff.id, await readersOf(tx, clinicId), now)
  if (!own || task === 'read-again')
    throw new Refusal('conflict', 'What happened opens after your own verdict: give that first.')
  if (notBefore !== null)
    throw new Refusal('conflict', 'You read this one again, blind: what happened opens after that.')
  await recordAccess(tx, {
    clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    patientId: item.patientId,
    ...openedEntry(itemId, own.reading),
  })
  const names = await staffNamesOf(tx, clinicId)
  return compose(tx, item, reviews[0]?.at ?? own.at, (id) => (id === null ? null : (names.get(id) ?? id)))
}

async function compose(
  tx: Tx,
  item: KeptItem,
  firstVerdictAt: string,
  nameOf: (id: string | null) => string | null,
): Promise<Happened> {
  const { patientId, stratum, probability } = item
  const from = stored(new Date(Date.parse(item.at) - DAY_MS))
  const until = stored(new Date(Date.parse(item.at) + DAYS_AFTER * DAY_MS))
  const isNear = (at: string) => at > from && at <= until
  const { rows: drains } = await drainsOf(tx, patientId, until)
  const labelOf = (id: string | null) => drains.find((drain) => drain.id === id)?.label ?? null
  const after = (id: string | null) => (labelOf(id) ? `, ${labelOf(id)}` : '')
  const { rows: steps } = await stepsSince(tx, patientId, from)
  const { rows: around } = await flagsSince(tx, patientId, from)
  const [flag] = item.flagId ? (await flagsByIds(tx, patientId, [item.flagId])).rows : []
  const own = steps.filter(({ flagId }) => flagId === item.flagId)
  const calls = standingCalls((await callbacksOf(tx, patientId, CALLS)).rows).filter(({ at }) => isNear(at))
  const { rows: events } = await outsideEventsOf(tx, patientId)
  return {
    item: item.id,
    stratum,
    probability,
    flag: flag
      ? {
          name: findingLabels[flag.code],
          drain: labelOf(flag.drain),
          urgency: urgencyLabels[own[0]?.urgency ?? flag.urgency],
          openedAt: flag.openedAt,
          actBy: flag.actBy,
          says: own.find(({ kind }) => kind === 'opened')?.why ?? flag.finding.says,
          state: flagStateLabels[flag.state],
          ruleSet: await ruleSetOfFlag(tx, flag.id),
          hadEnded: flag.endedAt !== null && flag.endedAt <= firstVerdictAt,
          steps: own.map(({ at, kind, by, why }) => ({
            at,
            says: `${capital(stepLabels[kind])}, ${nameOf(by) ?? 'the rules'}. ${why}`,
          })),
        }
      : null,
    others: around
      .filter(({ id, openedAt }) => id !== item.flagId && isNear(openedAt))
      .toReversed()
      .map(({ openedAt, code, drain, urgency, state }) => ({
        at: openedAt,
        says: `${findingLabels[code]}${after(drain)}: ${urgencyLabels[urgency].toLowerCase()}, ${flagStateLabels[state].toLowerCase()}`,
      })),
    calls: calls.toReversed().map(({ at, by, direction, outcome, agreed, note }) => ({
      at,
      by,
      says: [
        directionLabels[direction],
        outcomeLabels[outcome],
        ...agreed.map((one) => agreedLabels[one]),
      ].join(' · '),
      note,
    })),
    events: events
      .filter(({ at, withdrawnAt }) => withdrawnAt === null && at > from)
      .map(({ at, kind, drain, note }) => ({
        at,
        says: `${outsideEventLabels[kind]}${after(drain)}${note ? `: ${note}` : ''}`,
      })),
  }
}
