import type { Day } from '@/lib/domain/assessment.ts'
import { isComplete } from '@/lib/domain/day-limit.ts'
import { dayMonth } from '@/lib/domain/local-time.ts'

export type Bar = { x: number; y: number; width: number; height: number; kind: 'before' | 'last' | 'partial' }
export type Picture = {
  bars: Bar[]
  unknown: number[]
  band: { y: number; height: number } | null
  zero: number
}

export const PICTURE = { width: 156, height: 32, days: 14 } as const
const STEP = PICTURE.width / PICTURE.days
const BAR = 8

/**
 * The last 14 days as small bars over the usual band, the newest at the right. A day of which nothing is known
 * is a stub of its own, never a bar of no height; one that is not complete is hatched; what came back negative
 * goes below the line.
 * @param completeFrom from which share of its hours on a day is complete
 */
export function pictureOf(
  days: readonly Day[],
  baselineMlPerDay: number | null,
  completeFrom: number,
): Picture {
  const shown = days.slice(-PICTURE.days)
  const values = shown.flatMap(({ netMl }) => (netMl === null ? [] : [netMl]))
  const top = Math.max(1, ...values, (baselineMlPerDay ?? 0) * 1.15)
  const lowest = Math.min(0, ...values)
  const scale = (PICTURE.height - 2) / (top - lowest)
  const zero = 1 + top * scale
  const offset = PICTURE.days - shown.length
  const lastKnown = shown.findLastIndex(
    ({ netMl, coverage }) => netMl !== null && isComplete(coverage, { completeFrom }),
  )

  const bars: Bar[] = []
  const unknown: number[] = []
  shown.forEach(({ netMl, coverage }, i) => {
    const x = (offset + i) * STEP + (STEP - BAR) / 2
    if (netMl === null) {
      unknown.push(x + BAR / 2)
      return
    }
    const height = Math.max(1, Math.abs(netMl) * scale)
    const kind = !isComplete(coverage, { completeFrom }) ? 'partial' : i === lastKnown ? 'last' : 'before'
    bars.push({ x, y: netMl >= 0 ? zero - height : zero, width: BAR, height, kind })
  })
  const band =
    baselineMlPerDay === null || baselineMlPerDay <= 0
      ? null
      : { y: zero - baselineMlPerDay * 1.1 * scale, height: Math.max(2, baselineMlPerDay * 0.2 * scale) }
  return { bars, unknown, band, zero }
}

/** The same in words. */
export function pictureText(
  label: string,
  days: readonly Day[],
  baselineMlPerDay: number | null,
  completeFrom: number,
): string {
  const shown = days.slice(-PICTURE.days)
  const first = shown[0]
  if (!first) return `${label}: nothing logged yet`
  const list = shown.map(({ netMl, coverage }, i) => {
    if (netMl === null) return 'not known'
    const part = i === shown.length - 1 ? ' so far' : ' in part'
    return `${Math.round(netMl)}${isComplete(coverage, { completeFrom }) ? '' : part}`
  })
  const usual = baselineMlPerDay === null ? 'usual not known yet' : `usual ${Math.round(baselineMlPerDay)}`
  return `${label}: net output in mL a day from ${dayMonth(first.date)}: ${list.join(', ')}; ${usual}`
}
