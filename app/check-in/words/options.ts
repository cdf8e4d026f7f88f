import type {
  Appearance,
  DrainKind,
  DressingFound,
  Ease,
  General,
  Position,
  Skin,
} from '@/lib/domain/words.ts'
import type { DrainAnswers, VolumeUnit, YesNo } from '../answers/draft.ts'
import type { Say } from './catalogue.ts'

/** Answers in a person's words, beside the record's words that they stand for. */
export type Options<T extends string> = readonly (readonly [T, string])[]

const options = <T extends string>(words: readonly T[], worded: (word: T) => string): Options<T> =>
  words.map((word) => [word, worded(word)] as const)

const symptoms: General[] = [
  'short-of-breath',
  'chest-pain',
  'fainted',
  'confused',
  'heavy-bleeding',
  'vomiting',
  'dizzy',
]
export const generalOptions = (say: Say): Options<General> =>
  options(symptoms, (word) => say(`general.${word}`))

export const yesNoOptions = (say: Say): Options<YesNo> =>
  options(['yes', 'no', 'unsure'], (word) => say(`yesNo.${word}`))

export const doneOptions = (say: Say): Options<'yes' | 'no'> =>
  options(['yes', 'no'], (word) => say(`yesNo.${word}`))

export const positionOptions = (say: Say): Options<Position | 'unsure'> =>
  options(['in-place', 'moved', 'out', 'unsure'], (word) => say(`position.${word}`))

export const outputOptions = (say: Say): Options<NonNullable<DrainAnswers['output']>> =>
  options(['measured', 'nothing', 'not-measured', 'not-emptied'], (word) => say(`output.${word}`))

export const unitOptions = (say: Say): Options<VolumeUnit> =>
  options(['mL', 'oz', 'cup'], (word) => say(`unit.${word}`))

export const emptyingOptions = (say: Say): Options<NonNullable<DrainAnswers['emptyings']>> =>
  options(['one', 'several'], (word) => say(`emptyings.${word}`))

export const easeOptions = (say: Say): Options<Ease> =>
  options(['easy', 'stiff', 'blocked'], (word) => say(`ease.${word}`))

export const foundOptions = (say: Say): Options<DressingFound | 'unsure'> =>
  options(['clean', 'damp', 'soiled', 'loosened', 'off', 'unsure'], (word) => say(`found.${word}`))

export const skinOptions = (say: Say): Options<Skin | 'unsure'> =>
  options(['intact', 'red', 'broken', 'pus', 'unsure'], (word) => say(`skin.${word}`))

const urine: Appearance[] = ['straw', 'clear', 'pink', 'red', 'clots', 'cloudy', 'pus']
const bile: Appearance[] = ['bile-green', 'bile-dark', 'clear', 'pink', 'red', 'clots', 'cloudy', 'pus']
const wound: Appearance[] = ['serous', 'clear', 'pink', 'red', 'clots', 'cloudy', 'pus']
const usualLooks: Record<DrainKind, Appearance[]> = {
  nephrostomy: urine,
  nephroureteral: urine,
  biliary: bile,
  cholecystostomy: bile,
  collection: [...wound, 'bile-green', 'enteric'],
  pleural: wound,
  bulb: wound,
}

/**
 * How the fluid of this kind of drain may look; what is asked for, not what may be: a look that was reported
 * before and is not among them stands there too, so that a correction can keep it.
 */
export function looksOptions(
  say: Say,
  kind: DrainKind,
  also?: Appearance | 'unsure',
): Options<Appearance | 'unsure'> {
  const asked: (Appearance | 'unsure')[] = [...usualLooks[kind]]
  if (also && also !== 'unsure' && !asked.includes(also)) asked.push(also)
  return options([...asked, 'unsure'], (word) => say(`looks.${word}`))
}

/** The words of one answer, for the summary. */
export const wordsOf = <T extends string>(of: Options<T>, value: T | undefined): string | undefined =>
  of.find(([word]) => word === value)?.[1]
