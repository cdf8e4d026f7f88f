import { type Level, normalQuantile } from '../../rules/statistics/normal-quantile.ts'

/** One item that was read twice: the category of each reading, from 0 on, and whose item it was. */
export type ReadTwice = { readonly first: number; readonly second: number; readonly cluster: string }

export type Agreement = {
  readonly n: number
  /** The share on which both said the same. */
  readonly raw: number
  /** Cohen's kappa with its standard error and interval; null where chance alone would agree on all. */
  readonly kappa: { value: number; se: number; low: number; high: number } | null
  /** Gwet's AC1: agreement beyond chance that stays meaningful where nearly all are of one kind. */
  readonly ac1: number | null
  /** Of each category its share of all readings, in their order. */
  readonly prevalence: readonly number[]
}

/**
 * How far do two readers agree beyond chance?
 *
 * Method: Cohen's kappa; its standard error by linearisation, the residuals added up by cluster, for patients of whom several
 * items were read: with one item a cluster it is that of Fleiss, Cohen and Everitt. Gwet's AC1. Assumptions: clusters are independent, and
 * many (with under about 20 the error comes out too small); categories have no order.
 * Kappa falls where nearly all is of one category, however well readers agree: so prevalence and AC1 stand beside it.
 * Source: Cohen, Educ Psychol Meas 1960;20:37; Fleiss, Cohen and Everitt, Psychol Bull 1969;72:323; by cluster: Yang and Zhou, Stat Med
 * 2014;33:1425; Gwet, Br J Math Stat Psychol 2008;61:29 (all from memory); R `psych::cohen.kappa(table)`, `irrCAC::gwet.ac1.table(table)`.
 *
 * @param categories how many there are.
 * @throws RangeError where nothing was read twice, or a category is none.
 */
export function agreement(items: readonly ReadTwice[], categories: number, level: Level = 95): Agreement {
  const n = items.length
  if (n === 0) throw new RangeError('no items; accepted: at least one item read twice')
  const firsts = Array.from({ length: categories }, () => 0)
  const seconds = [...firsts]
  let same = 0
  for (const { first, second } of items) {
    if (!(first in firsts && second in seconds))
      throw new RangeError(`accepted: categories 0 to ${categories - 1}`)
    firsts[first] = (firsts[first] ?? 0) + 1
    seconds[second] = (seconds[second] ?? 0) + 1
    if (first === second) same++
  }
  const first = (i: number) => (firsts[i] ?? 0) / n
  const second = (i: number) => (seconds[i] ?? 0) / n
  const raw = same / n
  const prevalence = firsts.map((_, i) => (first(i) + second(i)) / 2)

  const byChance = firsts.reduce((sum, _, i) => sum + first(i) * second(i), 0)
  const left = 1 - byChance
  let kappa: Agreement['kappa'] = null
  if (left > 1e-12) {
    const value = (raw - byChance) / left
    const residuals = new Map<string, number>()
    for (const { first: a, second: b, cluster } of items) {
      const beyond = (a === b ? 1 : 0) - raw - (1 - value) * (second(a) + first(b) - 2 * byChance)
      residuals.set(cluster, (residuals.get(cluster) ?? 0) + beyond / left)
    }
    const se = Math.sqrt([...residuals.values()].reduce((sum, one) => sum + one * one, 0)) / n
    const reach = normalQuantile(level) * se
    kappa = { value, se, low: Math.max(-1, value - reach), high: Math.min(1, value + reach) }
  }
  const chance = categories > 1 ? prevalence.reduce((sum, p) => sum + p * (1 - p), 0) / (categories - 1) : 1
  return { n, raw, kappa, ac1: chance < 1 ? (raw - chance) / (1 - chance) : null, prevalence }
}
