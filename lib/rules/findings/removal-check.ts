import { less } from '../compare.ts'
import { chills, counting, fevers } from '../series/statements.ts'
import type { Stretch } from '../series/stretches.ts'
import type { DrainView } from '../series/view.ts'
import type { ThresholdName } from '../thresholds.ts'
import { drainMoved } from './drain-moved.ts'
import { drainOut } from './drain-out.ts'
import { dressingOverdue } from './dressing-overdue.ts'
import { flushBlocked } from './flush-blocked.ts'
import { flushRetained } from './flush-retained.ts'
import { leak } from './leak.ts'
import { outputStopped } from './output-stopped.ts'
import { outputSurge } from './output-surge.ts'
import { readingSuspect } from './reading-suspect.ts'
import { type DrainRule, found, quiet, type Standing, type Verdict } from './rule.ts'
import { localTime, mL, noted, readingsOf, threshold } from './telling.ts'

/** How little is little enough, for the kinds that have such a limit. */
export function removalLimit(drain: DrainView): { name: ThresholdName; countName: ThresholdName } | null {
  if (drain.course !== 'resolving') return null
  switch (drain.facts.kind) {
    case 'collection':
      return { name: 'removalCollectionMl', countName: 'removalCollectionDays' }
    case 'bulb':
      return { name: 'removalBulbMl', countName: 'removalBulbDays' }
    case 'pleural':
      return { name: 'removalPleuralMl', countName: 'removalPleuralReadings' }
    default:
      return null
  }
}

/** Whether the vessel's smallest mark is too coarse to tell that limit. */
export function tooCoarseToTell(drain: DrainView): boolean {
  const limit = removalLimit(drain)
  const { markMl } = drain.facts
  return limit !== null && markMl !== null && markMl > drain.limits[limit.name]
}

interface Little {
  says: string
  from: Stretch[]
}

/** The latest days (pleural: readings) if all of them are under the limit and more than one reading says so. */
function little(drain: DrainView): Little | null {
  const limit = removalLimit(drain)
  if (!limit || tooCoarseToTell(drain)) return null
  const { output, limits } = drain
  const most = limits[limit.name]
  const count = limits[limit.countName]
  if (drain.facts.kind === 'pleural') {
    const latest = output.own.slice(-count)
    if (latest.length < Math.max(2, count)) return null
    if (!latest.every((s) => s.netMl !== null && less(s.netMl, most))) return null
    return {
      says: `Net output under ${most} mL at each of the latest ${count} readings (${latest.map((s) => mL(s.netMl as number)).join(', ')}).`,
      from: latest,
    }
  }
  const days = output.complete.slice(-count)
  if (days.length < count) return null
  if (days.some((day, i) => !less(day.netMl, most) || (i > 0 && days[i - 1]?.end !== day.start))) return null
  const from = [...new Set(days.flatMap((day) => day.from))].map((i) => output.own[i] as Stretch)
  if (from.length < 2) return null
  return {
    says: `Net output ${days.map((day) => `${mL(day.netMl)} on ${day.date}`).join(' and ')}, under ${most} mL/day.`,
    from,
  }
}

const standsInTheWay: readonly DrainRule[] = [
  flushRetained,
  flushBlocked,
  outputStopped,
  outputSurge,
  leak,
  drainMoved,
  drainOut,
  readingSuspect,
]
const alone = (): Standing => ({ rank: 0, next: Number.POSITIVE_INFINITY })

/** Until when something speaks against removal: null where nothing does, infinite where only new data ends it. */
function heldUntil(drain: DrainView, at: number): number | null {
  const { view, limits } = drain
  const hours = limits.removalHoldHours
  const held: number[] = []
  for (const signs of [
    fevers(view, at, limits.feverC, hours),
    chills(view, at, hours),
    counting(view, view.record.pains, (pain) => pain >= limits.removalPain, at, hours),
  ])
    if (signs.lead) held.push(signs.until)
  for (const rule of standsInTheWay) {
    const verdict: Verdict = rule.judge(drain, at, alone)
    if (verdict.urgency !== 'none') held.push(verdict.next)
  }
  const dressing = dressingOverdue.judge(drain, at, alone)
  if (dressing.urgency !== 'none' && dressing.nature === 'clinical') held.push(dressing.next)
  return held.length > 0 ? Math.min(...held) : null
}

const passed = ({ view }: DrainView, booking: number) =>
  `The removal booked for ${localTime(view.record.zone, booking)} has passed and none is recorded.`

/**
 * Is so little coming from a drain that should dwindle that somebody should look whether it can go?
 * By kind, on the latest days or readings; never while anything speaks against it, and not while the
 * removal is booked ahead: a booking that has passed without a removal says so. Missing flushes are
 * not subtracted here: a rule that reassures uses what was recorded.
 */
export const removalCheck: DrainRule = {
  code: 'removal-check',
  scope: 'drain',
  judge(drain, at) {
    if (drain.tube.cappedSince !== null) return quiet()
    const low = little(drain)
    if (!low) return quiet()
    const booking = drain.facts.removalBookedFor
    if (booking !== null && at < booking) return quiet(booking)
    const held = heldUntil(drain, at)
    if (held !== null) return quiet(held)
    const missed = booking !== null && booking > drain.tube.newest ? booking : null
    return found('within-3d', () => ({
      says: missed === null ? low.says : `${low.says} ${passed(drain, missed)}`,
      ends: 'It ends when more comes, when the removal is booked ahead, or while fever, chills, pain or a fault of the drain stands.',
      evidence: [
        ...readingsOf(low.from),
        ...(missed === null ? [] : [noted(missed, 'removal booked for', null)]),
      ],
      threshold: threshold(removalLimit(drain)?.name ?? 'removalCollectionMl', drain.limits),
    }))
  },
}
