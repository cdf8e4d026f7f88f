import type { Urgency } from '../../domain/words.ts'
import { atLeast, atMost, more } from '../compare.ts'
import { comparable, type Last24 } from '../series/output.ts'
import type { Stated } from '../series/prepare.ts'
import { type Stretch, worstNetMl } from '../series/stretches.ts'
import { ofSeries } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { hoursText, localTime, mL, netOutput, stated, threshold } from './telling.ts'

const HOUR_MS = 3_600_000

/** Latest stretches that together make the hours wanted, with their net output at its more worrying. */
export interface Chain {
  stretches: Stretch[]
  hours: number
  netMl: number
  limitMl: number
}

/**
 * Does the shortest chain of latest stretches that makes the hours bring next to nothing?
 * Judged as if the i-th stretch were the newest. An unmeasured stretch in the chain leaves it unknown.
 */
export function stoppedChain(drain: DrainView, i: number): Chain | null {
  const { limits, output } = drain
  const chain: Stretch[] = []
  let length = 0
  let netMl = 0
  for (let k = i; k >= 0 && length < limits.stoppedHours * HOUR_MS; k--) {
    const stretch = output.own[k] as Stretch
    const worst = worstNetMl(stretch)
    if (worst === null) return null
    chain.unshift(stretch)
    length += stretch.end - stretch.start
    netMl += worst
  }
  if (length < limits.stoppedHours * HOUR_MS) return null
  const hours = length / HOUR_MS
  const limitMl = (limits.stoppedMlPer8h * hours) / 8
  const newest = chain.at(-1) as Stretch
  // What came back in the last hours is not stopped, however long nothing came before.
  const newestLimitMl = (limits.stoppedMlPer8h * Math.max(newest.hours, limits.stoppedHours)) / 8
  if (!atMost(netMl, limitMl) || !atMost(worstNetMl(newest) as number, newestLimitMl)) return null
  const usual = output.last24At(i).baseline.mlPerDay
  if (usual !== null && netMl > 0 && atLeast(netMl, (limits.stoppedBaselineShare * usual * hours) / 24))
    return null
  return { stretches: chain, hours, netMl, limitMl }
}

/** The newest 'not draining' that nothing has ended yet. */
export function notDraining(drain: DrainView): Stated<boolean> | null {
  const statements = drain.view.seen(drain.facts.drainings)
  return statements.findLast((s) => !s.value && ofSeries(drain.tube, s.when) && !hasEnded(drain, s)) ?? null
}

/** Whether a 'not draining' was closed, or emptyings that began after it flow, or, once 'draining' was stated, that end after it. */
function hasEnded(drain: DrainView, { when, receivedAt }: Stated<boolean>): boolean {
  const closedAt = drain.closedAt('output-stopped')
  if (closedAt !== null && receivedAt <= closedAt) return true
  const flowing = drain.output.own.filter((s) => more(worstNetMl(s) ?? 0, drain.limits.stoppedMlPer8h))
  if (flowing.some((stretch) => stretch.start >= when)) return true
  const drainsAgain = drain.view.seen(drain.facts.drainings).some((s) => s.value && s.when > when)
  return drainsAgain && flowing.some((stretch) => stretch.end > when)
}

/** The 24 h in which a drain that should dwindle stopped at once, as long as that stands. */
function abruptStop(drain: DrainView): Last24 | null {
  const { limits, output } = drain
  const closedAt = drain.closedAt('output-stopped')
  for (let i = output.count - 1; i >= 0; i--) {
    const last = output.last24At(i)
    if (more(last.netMl, limits.resolvingStoppedMl)) return null
    const usual = last.baseline.mlPerDay
    if (usual === null || !comparable(last, limits) || !atLeast(usual, limits.resolvingStoppedBaselineMl))
      continue
    const before = output.complete.findLast((day) => day.end <= last.end - 24 * HOUR_MS)
    if (!before || !atLeast(before.netMl, limits.resolvingStoppedShare * usual)) continue
    const receivedAt = Math.max(...(output.own[i] as Stretch).readings.map((r) => r.receivedAt))
    if (closedAt !== null && receivedAt <= closedAt) continue
    return last
  }
  return null
}

function steadyUrgency(drain: DrainView): Exclude<Urgency, 'none'> {
  if (drain.facts.onlyKidney) return 'at-once'
  return drain.facts.internalExternal ? 'within-24h' : 'within-1h'
}

/**
 * Has a drain stopped that should not have?
 * Steady course: 'not draining' was reported, or next to nothing came over the hours set. Resolving
 * course: nothing in 24 h after a day that was still near the usual ('gradually, not abruptly').
 * Unknown output is never taken for none.
 */
export const outputStopped: DrainRule = {
  code: 'output-stopped',
  scope: 'drain',
  judge(drain) {
    if (drain.tube.cappedSince !== null) return quiet()
    const { zone } = drain.view.record
    if (drain.course === 'resolving') {
      const last = abruptStop(drain)
      if (!last) return quiet()
      return found('within-24h', () => ({
        says: `Net output ${mL(last.netMl)} in the 24 h to ${localTime(zone, last.end)}, after a usual ${mL(last.baseline.mlPerDay as number)}/day: this drain should dwindle, not stop at once (limit ${mL(drain.limits.resolvingStoppedMl)}).`,
        ends: `It ends when 24 h bring more than ${mL(drain.limits.resolvingStoppedMl)}, with a new tube, or when the flag is closed.`,
        evidence: netOutput(last.netMl, last.end, last.used),
        threshold: threshold('resolvingStoppedMl', drain.limits),
      }))
    }
    const said = notDraining(drain)
    const chain = stoppedChain(drain, drain.output.count - 1)
    if (!said && !chain) return quiet()
    return found(steadyUrgency(drain), () => ({
      says: chain
        ? `Net output ${mL(chain.netMl)} in the ${hoursText(chain.hours)} to ${localTime(zone, (chain.stretches.at(-1) as Stretch).end)}${said ? ', and it was reported as not draining' : ''} (limit ${mL(chain.limitMl)}).`
        : `Reported as not draining ${localTime(zone, (said as Stated<boolean>).at)}.`,
      ends: `It ends when a later emptying nets more than ${mL(drain.limits.stoppedMlPer8h)} or with a new tube; closing the flag ends only what was said, not what was measured.`,
      evidence: [
        ...(chain ? netOutput(chain.netMl, (chain.stretches.at(-1) as Stretch).end, chain.stretches) : []),
        ...(said ? [stated(said, 'draining', said.value)] : []),
      ],
      threshold: threshold(chain ? 'stoppedMlPer8h' : 'stoppedHours', drain.limits),
    }))
  },
}
