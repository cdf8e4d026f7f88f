import { fahrenheitToCelsius, usCupsToMl, usOuncesToMl } from '@/lib/domain/units.ts'
import type { VolumeUnit } from './draft.ts'

/**
 * A number as people write it: '12.5', '12,5', '1,200', with spaces or a unit after it. Null when it is
 * none, or not one number ('300 or 400').
 * @example parseNumber('1,200 ml') // 1200
 */
export function parseNumber(text: string | undefined): number | null {
  const bare = (text ?? '').trim().replace(/\s*(ml|cc|oz|cups?|°?\s*[cf])\.?$/i, '')
  const grouped = /^\d{1,3}([,\s]\d{3})+$/.test(bare) ? bare.replace(/[,\s]/g, '') : bare.replace(',', '.')
  return /^\d+(\.\d*)?$|^\.\d+$/.test(grouped) ? Number(grouped) : null
}

/** A volume in whole mL, as it is shown back and sent; household units are converted. */
export function volumeInMl(text: string | undefined, unit: VolumeUnit): number | null {
  const value = parseNumber(text)
  if (value === null) return null
  return Math.round(unit === 'oz' ? usOuncesToMl(value) : unit === 'cup' ? usCupsToMl(value) : value)
}

/** Body temperatures a home thermometer shows: 30 to 45 °C is 86 to 113 °F, so the number says its scale. */
const isCelsius = (value: number) => value >= 30 && value <= 45
const isFahrenheit = (value: number) => value >= 86 && value <= 113

/** A temperature in °C, whichever scale the thermometer has; null when it is no body temperature on either. */
export function temperatureInC(text: string | undefined): number | null {
  const value = parseNumber(text)
  if (value === null) return null
  return isCelsius(value)
    ? Math.round(value * 100) / 100
    : isFahrenheit(value)
      ? fahrenheitToCelsius(value)
      : null
}

/** Both scales, for showing back what was typed: '38.5 °C (101.3 °F)'. */
export const bothScales = (celsius: number): string =>
  `${celsius.toFixed(1)} °C (${((celsius * 9) / 5 + 32).toFixed(1)} °F)`
