/** A line to draw after a room of so many pixels that is left blank. */
export type Drawn = { index: number; roomPx: number }

/** Where each line begins, from the top of the first; at the end, where the last one ends. */
export function beginnings(heights: Iterable<number>, count: number): Float64Array {
  const sums = new Float64Array(count + 1)
  let at = 0
  for (const height of heights) {
    sums[at + 1] = (sums[at] ?? 0) + height
    at += 1
  }
  return sums
}

/** The line that a height falls into; the first or the last where it lies outside. */
export function lineAt(sums: Float64Array, y: number): number {
  let low = 0
  let high = sums.length - 2
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((sums[middle] ?? 0) <= y) low = middle
    else high = middle - 1
  }
  return Math.max(0, low)
}

/**
 * The lines from one to another, and one that stays drawn wherever the page is scrolled, with the blank rooms
 * between; `afterPx` is the room below the last.
 */
export function drawnLines(
  sums: Float64Array,
  { from, to }: { from: number; to: number },
  kept: number,
): { drawn: Drawn[]; afterPx: number } {
  const count = sums.length - 1
  const first = Math.max(0, from)
  const last = Math.min(count - 1, to)
  const indexes: number[] = []
  if (kept >= 0 && kept < Math.min(first, count)) indexes.push(kept)
  for (let index = first; index <= last; index++) indexes.push(index)
  if (kept > last && kept < count) indexes.push(kept)
  let end = 0
  const drawn = indexes.map((index) => {
    const roomPx = Math.max(0, (sums[index] ?? 0) - end)
    end = sums[index + 1] ?? 0
    return { index, roomPx }
  })
  return { drawn, afterPx: Math.max(0, (sums[count] ?? 0) - end) }
}
