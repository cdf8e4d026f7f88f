import { type Level, normalQuantile } from '../../rules/statistics/normal-quantile.ts'

export type Agreement = {
  readonly n: number
  /** The share on which both said the same. */
  readonly raw: number
  /** Cohen's kappa with its standard error and interval; null where chance alone would agree on all. */
  readonly kappa: { value: number; se: number; low: number; high: number } | null
  /** Gwet's AC1: agreement beyond chance that stays meaningful where nearly all are of one kind. */
  readonly ac1: number | null
  /** Of each category its share of all readings, in the order of the table. */
  readonly prevalence: readonly number[]
}

/**
 * How far do two readers agree beyond chance?
 *
 * Method: Cohen's kappa with the standard error of Fleiss, Cohen and Everitt; Gwet's AC1. `table[i][j]` counts what the
 * first reader put into category i and the second into j. Assumptions: items are independent; categories have no order.
 * Kappa falls where nearly all is of one category, however well readers agree: so prevalence and AC1 stand beside it.
 * Source: Cohen, Educ Psychol Meas 1960;20:37; Fleiss, Cohen and Everitt, Psychol Bull 1969;72:323; Gwet, Br J Math Stat Psychol
 * 2008;61:29 (all from memory); R `psych::cohen.kappa(table)`, `irrCAC::gwet.ac1.table(table)`.
 *
 * @throws RangeError where the table is not square, or nothing was read twice.
 */
export function agreement(table: readonly (readonly number[])[], level: Level = 95): Agreement {
  const size = table.length
  if (table.some((row) => row.length !== size)) throw new RangeError('table is not square')
  const n = table.flat().reduce((sum, count) => sum + count, 0)
  if (!(n > 0)) throw new RangeError('table is empty; accepted: at least one item read twice')
  const share = (i: number, j: number) => (table[i]?.[j] ?? 0) / n
  const ids = table.map((_, i) => i)
  const rows = ids.map((i) => ids.reduce((sum, j) => sum + share(i, j), 0))
  const columns = ids.map((j) => ids.reduce((sum, i) => sum + share(i, j), 0))
  const at = (list: readonly number[], i: number) => list[i] ?? 0
  const raw = ids.reduce((sum, i) => sum + share(i, i), 0)
  const prevalence = ids.map((i) => (at(rows, i) + at(columns, i)) / 2)

  const byChance = ids.reduce((sum, i) => sum + at(rows, i) * at(columns, i), 0)
  const left = 1 - byChance
  let kappa: Agreement['kappa'] = null
  if (left > 1e-12) {
    const value = (raw - byChance) / left
    let spread = -((value - byChance * (1 - value)) ** 2)
    for (const i of ids)
      for (const j of ids)
        spread +=
          i === j
            ? share(i, i) * (1 - (at(rows, i) + at(columns, i)) * (1 - value)) ** 2
            : (1 - value) ** 2 * share(i, j) * (at(columns, i) + at(rows, j)) ** 2
    const se = Math.sqrt(Math.max(0, spread) / n) / left
    const reach = normalQuantile(level) * se
    kappa = { value, se, low: Math.max(-1, value - reach), high: Math.min(1, value + reach) }
  }
  const chance = size > 1 ? prevalence.reduce((sum, p) => sum + p * (1 - p), 0) / (size - 1) : 1
  return { n, raw, kappa, ac1: chance < 1 ? (raw - chance) / (1 - chance) : null, prevalence }
}
