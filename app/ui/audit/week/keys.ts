import { Harm, Truly, Verdict } from '@/lib/domain/review.ts'

/** What a key does while an item is read. */
export type ReadingKey =
  | { does: 'verdict'; verdict: Verdict }
  | { does: 'harm'; harm: Harm }
  | { does: 'truly'; truly: Truly }
  | { does: 'note' | 'save' | 'open' | 'next' | 'previous' }

/** Digits for what is chosen at each item, letters under the left hand for what was the matter, the right hand moves. */
const VERDICTS = '1234'
const HARMS = '6789'
const MATTERS = 'qwertasdfgzxcvb'
const others = { n: 'note', Enter: 'save', o: 'open', j: 'next', k: 'previous' } as const

const keys: Readonly<Record<string, ReadingKey>> = {
  ...Object.fromEntries(Verdict.options.map((verdict, i) => [VERDICTS[i], { does: 'verdict', verdict }])),
  ...Object.fromEntries(Harm.options.map((harm, i) => [HARMS[i], { does: 'harm', harm }])),
  ...Object.fromEntries(Truly.options.map((truly, i) => [MATTERS[i], { does: 'truly', truly }])),
  ...Object.fromEntries(Object.entries(others).map(([key, does]) => [key, { does }])),
}

/** What a pressed key does; null where it is none of these. */
export function readingKeyOf(key: string): ReadingKey | null {
  const name = key.length === 1 ? key.toLowerCase() : key
  return Object.hasOwn(keys, name) ? (keys[name] ?? null) : null
}

/** The key that a control shows for what it chooses or does. */
export const keyOfVerdict = (verdict: Verdict): string => VERDICTS[Verdict.options.indexOf(verdict)] ?? ''
export const keyOfHarm = (harm: Harm): string => HARMS[Harm.options.indexOf(harm)] ?? ''
export const keyOfTruly = (truly: Truly): string =>
  (MATTERS[Truly.options.indexOf(truly)] ?? '').toUpperCase()
export const keyOfDoing = (does: (typeof others)[keyof typeof others]): string => {
  const key = Object.entries(others).find(([, one]) => one === does)?.[0] ?? ''
  return key.length === 1 ? key.toUpperCase() : key
}
