/**
 * Household units into the record's own (mL, °C). A jug marked in ounces or cups and a thermometer in
 * Fahrenheit are what many people have at home.
 *
 * Factors: the US fluid ounce is 231 cubic inches / 128, the inch being 2.54 cm, so 29.5735295625 mL
 * exactly (NIST Handbook 44, appendix C); a US customary cup is 8 of them. °C = (°F − 32) × 5 / 9 exactly.
 * Checked in tests/published/units.test.ts against the UCUM definitions.
 */

/** mL in one US fluid ounce, exact. */
export const ML_PER_US_OUNCE = 29.5735295625
/** mL in one US customary cup (8 US fluid ounces), exact. */
export const ML_PER_US_CUP = 236.5882365

/** US fluid ounces → mL. @example usOuncesToMl(12) // 354.88235475 */
export const usOuncesToMl = (ounces: number): number => ounces * ML_PER_US_OUNCE

/** US customary cups → mL. @example usCupsToMl(2) // 473.176473 */
export const usCupsToMl = (cups: number): number => cups * ML_PER_US_CUP

/**
 * °F → °C, to a hundredth of a degree: finer than any home thermometer, and 100.4 °F is 38 °C and not a
 * hair beside it, so that it meets a fever threshold of 38.0.
 * @example fahrenheitToCelsius(101.3) // 38.5
 */
export const fahrenheitToCelsius = (fahrenheit: number): number =>
  Math.round(((fahrenheit - 32) * 500) / 9) / 100
