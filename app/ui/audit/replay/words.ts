import type { Estimate, Replay } from '@/lib/domain/replay.ts'

export const stateWords: Readonly<Record<Replay['state'], string>> = {
  waiting: 'Waits for its process',
  running: 'Running',
  done: 'Done',
  failed: 'Failed',
  cancelled: 'Cancelled',
}

/** Under so many a share is told as counts, and no interval is told (local choice). */
const FEW = 5

export const percent = (value: number): string => `${Math.round(100 * value)}%`
export const hours = (value: number): string => `${value.toFixed(1)} h`
export const points = (value: number): string => `${value > 0 ? '+' : ''}${Math.round(100 * value)} points`
export const moreHours = (value: number): string => `${value > 0 ? '+' : ''}${value.toFixed(1)} h`

/** A number with its interval and what it rests on; in words where the data do not carry one. */
export function estimateText(
  { value, low, high, n }: Estimate,
  say: (value: number) => string,
  of: string,
): string {
  if (value === null || n === 0) return `not known: no ${of}`
  if (n < FEW) return `too few: ${n} ${of}`
  const interval = low === null || high === null ? '' : ` (${say(low)} to ${say(high)})`
  return `${say(value)}${interval}, ${n} ${of}`
}

/** A change of a count, with its sign; 0 without. */
export const signed = (value: number): string => (value > 0 ? `+${value}` : String(value))
