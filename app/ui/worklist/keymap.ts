import type { Urgency } from '@/lib/domain/words.ts'

/** What a key does on the worklist. */
export type KeyAction =
  | 'down'
  | 'up'
  | 'open'
  | 'take'
  | 'give-back'
  | 'call'
  | 'next-at-once'
  | 'first-free'
  | 'show-new'
  | 'find'
  | 'upkeep'
  | 'all'
  | Urgency

/**
 * The keys, all under the left hand so that the other can hold the phone; arrows, Enter and / do the same for
 * whoever uses the right one.
 */
const keys: Readonly<Record<string, KeyAction>> = {
  s: 'down',
  ArrowDown: 'down',
  w: 'up',
  ArrowUp: 'up',
  d: 'open',
  ' ': 'take',
  z: 'give-back',
  c: 'call',
  a: 'next-at-once',
  x: 'first-free',
  e: 'show-new',
  f: 'find',
  '/': 'find',
  q: 'upkeep',
  '0': 'all',
  '1': 'at-once',
  '2': 'within-1h',
  '3': 'within-24h',
  '4': 'within-3d',
}

/** What a pressed key does; null where it is none of the worklist's. */
export const actionOf = (key: string): KeyAction | null => {
  const name = key.length === 1 ? key.toLowerCase() : key
  return Object.hasOwn(keys, name) ? (keys[name] ?? null) : null
}

/** The key that a control shows for what it does. */
export function keyOf(action: KeyAction): string {
  const key = Object.keys(keys).find((one) => keys[one] === action && !one.startsWith('Arrow'))
  return key === ' ' ? 'Space' : (key ?? '').toUpperCase()
}

/** The row that a step of the arrows leads to: from nowhere to the first or the last, never over the ends. */
export function stepFrom(ids: readonly string[], current: string | null, step: 1 | -1): string | null {
  const at = current === null ? -1 : ids.indexOf(current)
  if (at < 0) return (step > 0 ? ids[0] : ids.at(-1)) ?? null
  return ids[Math.min(ids.length - 1, Math.max(0, at + step))] ?? null
}

/** The next of those named after the one that has the focus, round the end. */
export function nextOf(
  ids: readonly string[],
  current: string | null,
  isOne: (id: string) => boolean,
): string | null {
  const from = current === null ? -1 : ids.indexOf(current)
  const round = [...ids.slice(from + 1), ...ids.slice(0, from + 1)]
  return round.find(isOne) ?? null
}
