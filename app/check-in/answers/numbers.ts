import { fahrenheitToCelsius, usCupsToMl, usOuncesToMl } from '@/lib/domain/units.ts'
import type { VolumeUnit } from './draft.ts'

/**
 * A number as people write it: '12.5', '12,5', '1,200', '1.200', with spaces or a unit after it, in the digits
 * of any of the page's languages. Null when it is none, or not one number ('300 or 400').
 * @example parseNumber('1,200 ml') // 1200
 */
export function parseNumber(text: string | undefined): number | null {
  const bare = inLatin(text ?? '')
    .trim()
    .replace(/\s*(ml|cc|oz|cups?|tazas?|onzas?|مل|°?\s*[cf])\.?$/i, '')
  // Three digits after a mark are thousands: nobody reads a bag to a thousandth.
  const grouped = /^[1-9]\d{0,2}([,.\s])\d{3}(\1\d{3})*$/.test(bare)
    ? bare.replace(/[,.\s]/g, '')
    : bare.replace(',', '.')
  return /^\d+(\.\d*)?$|^\.\d+$/.test(grouped) ? Number(grouped) : null
}

/** Arabic and Persian digits and marks as the Latin ones. */
const inLatin = (text: string): string =>
  text
    .replace(/[٠-٩]/g, (digit) => String(digit.charCodeAt(0) - 0x0660))
    .replace(/[۰-۹]/g, (digit) => String(digit.charCodeAt(0) - 0x06f0))
    .replace(/٫/g, '.')
    .replace(/[٬،]/g, ',')

/** A number as it stands in a field, so that parseNumber reads the same again. */
export function writtenNumber(value: number): string {
  const plain = String(value)
  const text = plain.includes('e') ? value.toFixed(6) : plain
  return /\.\d{3}$/.test(text) ? `${text}0` : text
}

/** A volume in mL, as it is shown back and sent; household units are converted to whole mL. */
export function volumeInMl(text: string | undefined, unit: VolumeUnit): number | null {
  const value = parseNumber(text)
  if (value === null || unit === 'mL') return value
  return Math.round(unit === 'oz' ? usOuncesToMl(value) : usCupsToMl(value))
}

/** Body temperatures a home thermometer shows: 30 to 45 °C is 86 to 113 °F, so the number says its scale. */
const isCelsius = (value: number) => value >= 30 && value <= 45
const isFahrenheit = (value: number) => value >= 86 && value <= 113

/** A temperature in °C, whichever scale the thermometer has; null when it is no body temperature on either. */
export function temperatureInC(text: string | undefined): number | null {
  const value = parseNumber(text)
  if (value === null) return null
  return isCelsius(value) ? value : isFahrenheit(value) ? fahrenheitToCelsius(value) : null
}
