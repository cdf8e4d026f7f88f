import type { Say } from '../words/catalogue.ts'
import type { VolumeUnit } from './draft.ts'
import { parseNumber } from './numbers.ts'

/** What was typed, in the unit in which it was typed: '12 oz', '250 mL'. */
export function amountOf(typed: string, unit: VolumeUnit, say: Say): string {
  const value = parseNumber(typed) ?? 0
  return unit === 'mL'
    ? say('milliliters', { ml: value })
    : say(`amount.${unit}`, { typed: value, count: value })
}

/** What was understood of a volume: '12 oz = 355 mL', or '250 mL'. */
export const shownBack = (typed: string, unit: VolumeUnit, ml: number, say: Say): string =>
  unit === 'mL' ? say('milliliters', { ml }) : say('converted', { amount: amountOf(typed, unit, say), ml })

/** A temperature in both scales, for showing back what was typed: '38.5 °C (101.3 °F)'. */
export function bothScales(celsius: number, say: Say): string {
  return say('bothScales', { celsius: tenths(celsius), fahrenheit: tenths((celsius * 9) / 5 + 32) })
}

/** One digit after the point, also where it is a zero, as a thermometer shows it. */
const tenths = (value: number): string => value.toFixed(1)
