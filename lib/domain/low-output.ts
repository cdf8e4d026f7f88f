type Measured = { at: string; volumeMl: number | null }

/** From rule set 2026.1: half of the usual, at least 50 mL a day below it; nothing is 10 mL in 8 h. */
const DECLINE_RATIO = 0.5
const DECLINE_ML = 50
const NOTHING_ML_PER_H = 10 / 8
/** A shorter stretch says too little: the person may just have emptied. */
const SHORTEST_H = 8

/**
 * Does the newest reading of a drain that should keep draining come to little, beside those before it?
 *
 * Rate of a reading = volume / hours since the reading before it. Little: at most 10 mL in 8 h; or under
 * half of the median rate of the earlier readings and at least 50 mL a day below it. Without an earlier
 * reading only a zero is little. A stretch under 8 h, or an unmeasured volume, is never judged.
 *
 * A first look for the check-in page, not the rule: flushes are not taken off, days are not made complete.
 *
 * @example isLow([{ at: '…-03T08:00Z', volumeMl: 120 }], [{ at: '…-02T08:00Z', volumeMl: 400 }, { at: '…-01T08:00Z', volumeMl: 410 }]) // true
 */
export function isLow(reported: readonly Measured[], recent: readonly Measured[]): boolean {
  const newest = [...reported].sort(byTime).at(-1)
  if (newest?.volumeMl == null) return false
  const earlier = [...recent, ...reported]
    .filter((one) => Date.parse(one.at) < Date.parse(newest.at))
    .sort(byTime)
  const before = earlier.at(-1)
  if (!before) return newest.volumeMl === 0
  const rate = ratePerHour(before, newest)
  if (rate === null) return false
  if (rate <= NOTHING_ML_PER_H) return true
  const usual = median(earlier.slice(1).flatMap((one, i) => ratePerHour(earlier[i], one) ?? []))
  return usual !== null && rate < DECLINE_RATIO * usual && (usual - rate) * 24 >= DECLINE_ML
}

const byTime = (a: Measured, b: Measured) => Date.parse(a.at) - Date.parse(b.at)

function ratePerHour(from: Measured | undefined, to: Measured): number | null {
  if (!from || to.volumeMl === null) return null
  const hours = (Date.parse(to.at) - Date.parse(from.at)) / 3_600_000
  return hours >= SHORTEST_H ? to.volumeMl / hours : null
}

function median(values: number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  const high = sorted[middle]
  if (high === undefined) return null
  return sorted.length % 2 ? high : ((sorted[middle - 1] ?? high) + high) / 2
}
