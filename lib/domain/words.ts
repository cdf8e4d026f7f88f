import { z } from 'zod'

/**
 * The closed lists of words that a record is made of. The words are the data's and the code's;
 * what a screen prints for them stands in labels.ts.
 */
const oneOf = <const T extends readonly [string, ...string[]]>(words: T) =>
  z.enum(words, { error: `accepted: ${words.join(', ')}` })

export const Urgency = oneOf(['at-once', 'within-1h', 'within-24h', 'within-3d', 'none'])
export type Urgency = z.infer<typeof Urgency>

export const DrainKind = oneOf([
  'nephrostomy',
  'nephroureteral',
  'biliary',
  'cholecystostomy',
  'collection',
  'pleural',
  'bulb',
])
export type DrainKind = z.infer<typeof DrainKind>

export const Side = oneOf(['left', 'right', 'middle'])
export type Side = z.infer<typeof Side>

export const Course = oneOf(['steady', 'resolving'])
export type Course = z.infer<typeof Course>

export const Drainage = oneOf(['external', 'internal-external'])
export type Drainage = z.infer<typeof Drainage>

export const Appearance = oneOf([
  'clear',
  'straw',
  'pink',
  'red',
  'clots',
  'cloudy',
  'pus',
  'bile-green',
  'bile-dark',
  'enteric',
  'serous',
])
export type Appearance = z.infer<typeof Appearance>

export const Ease = oneOf(['easy', 'stiff', 'blocked'])
export type Ease = z.infer<typeof Ease>

export const DressingFound = oneOf(['clean', 'damp', 'soiled', 'loosened', 'off'])
export type DressingFound = z.infer<typeof DressingFound>

export const Skin = oneOf(['intact', 'red', 'broken', 'pus'])
export type Skin = z.infer<typeof Skin>

export const Position = oneOf(['in-place', 'moved', 'out'])
export type Position = z.infer<typeof Position>

export const General = oneOf([
  'short-of-breath',
  'chest-pain',
  'fainted',
  'confused',
  'heavy-bleeding',
  'vomiting',
  'dizzy',
])
export type General = z.infer<typeof General>

export const StaffEventType = oneOf([
  'placed',
  'exchanged',
  'replaced',
  'removed',
  'capped',
  'uncapped',
  'position-checked',
  'flag-closed',
])
export type StaffEventType = z.infer<typeof StaffEventType>

export const FindingCode = oneOf([
  'drain-out',
  'drain-moved',
  'emergency-symptoms',
  'unwell',
  'output-stopped',
  'output-decline',
  'output-surge',
  'bleeding',
  'infection-signs',
  'blocked-and-infected',
  'leak',
  'severe-pain',
  'cap-failing',
  'flush-blocked',
  'flush-retained',
  'flush-missed',
  'dressing-overdue',
  'skin-broken',
  'log-missed',
  'exchange-due',
  'removal-check',
  'reading-suspect',
])
export type FindingCode = z.infer<typeof FindingCode>

export const Nature = oneOf(['clinical', 'upkeep'])
export type Nature = z.infer<typeof Nature>

/** How firmly a threshold stands, after the confidence column of the clinical basis. */
export const Confidence = oneOf([
  'published',
  'published, secondary copy',
  'from memory',
  'common practice, no source',
  'local choice',
])
export type Confidence = z.infer<typeof Confidence>

/** Rank of an urgency: more is sooner, 0 is none. */
export const urgencyRank: Readonly<Record<Urgency, number>> = {
  'at-once': 4,
  'within-1h': 3,
  'within-24h': 2,
  'within-3d': 1,
  none: 0,
}

/** Hours from `since` to `act by`; null where nothing is due. */
export const urgencyHours: Readonly<Record<Urgency, number | null>> = {
  'at-once': 0,
  'within-1h': 1,
  'within-24h': 24,
  'within-3d': 72,
  none: null,
}

export { isBiliary, isUrinary, usualCourse } from './kinds.ts'
