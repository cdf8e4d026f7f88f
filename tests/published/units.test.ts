import ucum from '@lhncbc/ucum-lhc'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  fahrenheitToCelsius,
  ML_PER_US_CUP,
  ML_PER_US_OUNCE,
  usCupsToMl,
  usOuncesToMl,
} from '../../lib/domain/units.ts'

/**
 * Household units against outside authorities:
 * - UCUM, by @lhncbc/ucum-lhc 7.1.10 (Regenstrief Institute and the UCUM Organization), units [foz_us],
 *   [cup_us], [degF], Cel;
 * - the US fluid ounce of NIST Handbook 44, appendix C: 29.5735295625 mL exactly;
 * - drain leaflets and the arithmetic of clinical practice: 100.4 °F is 38.0 °C, 101.3 °F is 38.5 °C.
 */
const library = ucum.UcumLhcUtils.getInstance()
function byUcum(value: number, from: string, to: string): number {
  const { status, toVal, msg } = library.convertUnitTo(from, value, to)
  if (status !== 'succeeded' || toVal === null) throw new Error(msg.join('; '))
  return toVal
}

describe('units', () => {
  it('take the US fluid ounce of NIST Handbook 44', () => {
    expect(ML_PER_US_OUNCE).toBe(29.5735295625)
    expect((231 * 2.54 ** 3) / 128).toBeCloseTo(ML_PER_US_OUNCE, 10)
    expect(ML_PER_US_CUP).toBe(8 * ML_PER_US_OUNCE)
  })

  it.each([0, 0.5, 1, 8, 12, 16.9, 33.8, 100])('agree with UCUM on %d US fluid ounces', (ounces) => {
    expect(usOuncesToMl(ounces)).toBeCloseTo(byUcum(ounces, '[foz_us]', 'mL'), 6)
  })

  it.each([0.25, 0.5, 1, 2, 4])('agree with UCUM on %d US cups', (cups) => {
    expect(usCupsToMl(cups)).toBeCloseTo(byUcum(cups, '[cup_us]', 'mL'), 6)
  })

  it('agree with UCUM on any household volume, to a millionth', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 200, noNaN: true }), (ounces) => {
        const expected = byUcum(ounces, '[foz_us]', 'mL')
        expect(Math.abs(usOuncesToMl(ounces) - expected) / expected).toBeLessThan(1e-6)
      }),
    )
  })

  it.each([
    [100.4, 38],
    [100.9, 38.28],
    [101.3, 38.5],
    [102.2, 39],
    [98.6, 37],
    [86, 30],
    [113, 45],
  ])('make %d °F %d °C, as UCUM does to a hundredth', (fahrenheit, celsius) => {
    expect(fahrenheitToCelsius(fahrenheit)).toBe(celsius)
    expect(fahrenheitToCelsius(fahrenheit)).toBeCloseTo(byUcum(fahrenheit, '[degF]', 'Cel'), 1)
  })

  it('keep what a Fahrenheit thermometer can show on its own side of 38.0 °C', () => {
    for (let tenths = 860; tenths <= 1130; tenths++)
      expect(fahrenheitToCelsius(tenths / 10) >= 38).toBe(tenths >= 1004)
  })
})
