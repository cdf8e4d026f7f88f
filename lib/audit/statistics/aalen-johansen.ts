import { type Level, normalQuantile } from '../../rules/statistics/normal-quantile.ts'
import { inOrder } from './kaplan-meier.ts'

/** How long it took until the first of several things came; cause 0: none had when last looked. */
export type FirstOf = { readonly time: number; readonly cause: number; readonly cluster: string }

export type Incidence = {
  readonly share: number
  readonly se: number
  readonly low: number | null
  readonly high: number | null
}

type Step = { time: number; atRisk: number; all: number; own: number; before: number }

/**
 * Which share met this one of several things by then, where each shuts out the others?
 *
 * Method: cumulative incidence by Aalen and Johansen: the sum over times of the share that had met none yet, times this
 * thing's share of who was at risk. Its error by the infinitesimal jackknife, the residuals added up by cluster, for people who
 * are in it several times. Interval on the scale of log(−log). Units: shares; times as given. Assumptions: censoring says nothing
 * of what would have come; clusters independent. (To take the others for censored and use 1 − Kaplan–Meier gives too much.)
 * Source: Aalen and Johansen, Scand J Stat 1978;5:141; interval: Pintilie, Competing Risks, 2006 (as tidycmprsk cites it);
 * jackknife: R `residuals.survfit`.
 *
 * @throws RangeError on a time that is negative or not finite.
 */
export function incidence(
  firsts: readonly FirstOf[],
  cause: number,
  by: number,
  level: Level = 95,
): Incidence {
  const sorted = inOrder(firsts)
  const steps = stepsOf(sorted, cause, by)
  // Sums up to each step: of the cause's increments, of them over who was at risk, of the hazards, and of both together.
  const share = [0]
  const perRisk = [0]
  const hazard = [0]
  const both = [0]
  const last = (sums: number[]) => sums.at(-1) ?? 0
  for (const { atRisk, all, own, before } of steps) {
    const increment = (before * own) / atRisk
    both.push(last(both) + increment * last(hazard))
    share.push(last(share) + increment)
    perRisk.push(last(perRisk) + increment / atRisk)
    hazard.push(last(hazard) + (atRisk > all ? all / (atRisk * (atRisk - all)) : 0))
  }
  const total = last(share)

  const sums = new Map<string, number>()
  let reached = 0
  for (const { time, cause: met, cluster } of sorted) {
    while (reached < steps.length && (steps[reached]?.time ?? 0) <= time) reached++
    const at = (list: number[]) => list[reached] ?? 0
    const step = steps[reached - 1]
    const isMet = met !== 0 && step !== undefined && step.time === time
    const jump = isMet && step.atRisk > step.all ? 1 / (step.atRisk - step.all) : 0
    const own = isMet && met === cause ? step.before / step.atRisk : 0
    const residual = own - at(perRisk) + at(both) - (jump - at(hazard)) * (total - at(share))
    sums.set(cluster, (sums.get(cluster) ?? 0) + residual)
  }
  const se = Math.sqrt([...sums.values()].reduce((sum, one) => sum + one * one, 0))
  if (!(total > 0 && total < 1 && se > 0)) return { share: total, se, low: null, high: null }
  const reach = (normalQuantile(level) * se) / Math.abs(total * Math.log(total))
  return { share: total, se, low: total ** Math.exp(reach), high: total ** Math.exp(-reach) }
}

/** The times up to `by` at which anything was met; `before` is the share that had met nothing until then. */
function stepsOf(sorted: readonly FirstOf[], cause: number, by: number): Step[] {
  const steps: Step[] = []
  let before = 1
  for (let i = 0; i < sorted.length; ) {
    const time = sorted[i]?.time ?? 0
    if (time > by) break
    const atRisk = sorted.length - i
    let all = 0
    let own = 0
    for (; i < sorted.length && sorted[i]?.time === time; i++) {
      if (sorted[i]?.cause === 0) continue
      all++
      if (sorted[i]?.cause === cause) own++
    }
    if (all === 0) continue
    steps.push({ time, atRisk, all, own, before })
    before *= 1 - all / atRisk
  }
  return steps
}
