import type { Course, DrainKind } from './words.ts'

/**
 * What follows from a drain's kind alone. Apart from words.ts, so that a page on an old phone can ask
 * without loading the schemas.
 */

/** Course of a drain kind where the order does not say otherwise. */
export const usualCourse: Readonly<Record<DrainKind, Course>> = {
  nephrostomy: 'steady',
  nephroureteral: 'steady',
  biliary: 'steady',
  cholecystostomy: 'steady',
  collection: 'resolving',
  pleural: 'resolving',
  bulb: 'resolving',
}

export const isUrinary = (kind: DrainKind) => kind === 'nephrostomy' || kind === 'nephroureteral'
export const isBiliary = (kind: DrainKind) => kind === 'biliary' || kind === 'cholecystostomy'
