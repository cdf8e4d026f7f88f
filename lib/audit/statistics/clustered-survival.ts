import { inOrder, type Step, type Waited } from './kaplan-meier.ts'

/** A wait of somebody who may have waited several times. */
export type ClusteredWait = Waited & { readonly cluster: string }

/**
 * How far may the share that still waits be off, where one person waited several times?
 *
 * Method: infinitesimal jackknife of the product-limit estimator, its residuals added up by cluster. With one wait a
 * cluster it is Greenwood's standard error. Units: shares. Assumptions: clusters are independent of each other, and many
 * (with under about 20 it comes out too small).
 * Source: Ying and Wei, J Multivar Anal 1994;50:17 (from memory); R `survfit(Surv(time, event) ~ 1, cluster = id)`; the equality with
 * Greenwood: R package survival, tests/survfit1.R.
 *
 * @param steps what kaplanMeier gave for these waits.
 * @returns the standard error at a step.
 */
export function clusteredError(
  waits: readonly ClusteredWait[],
  steps: readonly Step[],
): (step: Step) => number {
  // Of each wait the number of steps that it was at risk at, so that its residual needs no walk through them.
  const sorted = inOrder(waits)
  const hazards = [0]
  for (const { atRisk, events } of steps)
    hazards.push((hazards.at(-1) ?? 0) + (atRisk > events ? events / (atRisk * (atRisk - events)) : 0))
  const numbers = new Map<string, number>()
  let reached = 0
  const rows = sorted.map(({ time, event, cluster }) => {
    while (reached < steps.length && (steps[reached]?.time ?? 0) <= time) reached++
    const own = steps[reached - 1]
    const isOwn = event && own?.time === time && own.atRisk > own.events
    const number = numbers.get(cluster) ?? numbers.size
    numbers.set(cluster, number)
    return { number, reached, jump: isOwn ? 1 / (own.atRisk - own.events) : 0 }
  })
  const places = new Map(steps.map((step, i) => [step.time, i + 1]))

  return ({ time, survival }) => {
    const upTo = places.get(time) ?? 0
    const sums = new Float64Array(numbers.size)
    for (const { number, reached, jump } of rows)
      sums[number] =
        (sums[number] ?? 0) + (reached <= upTo ? jump - (hazards[reached] ?? 0) : -(hazards[upTo] ?? 0))
    return survival * Math.sqrt(sums.reduce((sum, one) => sum + one * one, 0))
  }
}
