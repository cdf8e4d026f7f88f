import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseNumber, temperatureInC, volumeInMl, writtenNumber } from '../../app/check-in/answers/numbers.ts'
import { bothScales, shownBack } from '../../app/check-in/answers/shown-back.ts'
import { sayFor } from '../../app/check-in/words/catalogues.ts'

describe('a number as people write it', () => {
  it.each([
    ['250', 250],
    [' 250 ml', 250],
    ['250cc', 250],
    ['12.5', 12.5],
    ['12,5', 12.5],
    ['1,200', 1200],
    ['1 200', 1200],
    ['1.200', 1200],
    ['0.125', 0.125],
    ['12.125 ml', 12125],
    ['250 مل', 250],
    ['٢٥٠', 250],
    ['٣٨٫٦', 38.6],
    ['۱٬۲۰۰', 1200],
    ['1,5 tazas', 1.5],
    ['.5', 0.5],
    ['0', 0],
    ['101.3 F', 101.3],
    ['38,5 °C', 38.5],
  ])('%s', (text, value) => expect(parseNumber(text)).toBe(value))

  it.each([
    '',
    '  ',
    '-5',
    'a lot',
    '300 or 400',
    '300-400',
    '1.2.3',
    '12,5,5',
    '1,200.500',
    'NaN',
    '1e3',
    undefined,
  ])('is not in %s', (text) => expect(parseNumber(text)).toBeNull())
})

describe('a volume', () => {
  it('is converted to whole mL and shown back', () => {
    expect(volumeInMl('12', 'oz')).toBe(355)
    expect(volumeInMl('1,5', 'cup')).toBe(355)
    expect(volumeInMl('120', 'mL')).toBe(120)
    expect(volumeInMl('12.5', 'mL')).toBe(12.5)
    expect(volumeInMl('some', 'mL')).toBeNull()
  })
})

describe('a temperature', () => {
  it.each([
    ['37.2', 37.2],
    ['38,6', 38.6],
    ['30', 30],
    ['45', 45],
    ['100.4', 38],
    ['101.3', 38.5],
    ['86', 30],
    ['113', 45],
  ])('%s says its scale by itself', (text, celsius) => expect(temperatureInC(text)).toBe(celsius))

  it.each(['29.9', '45.1', '85.9', '113.1', '60', '0', 'warm'])('is none in %s', (text) =>
    expect(temperatureInC(text)).toBeNull(),
  )

  it('is shown back in both scales', () => expect(bothScales(38.5, sayFor('en'))).toBe('38.5 °C (101.3 °F)'))
})

describe('a number that is shown', () => {
  it('is read again as the same number', () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000_000 }), (thousandths) => {
        const value = thousandths / 1000
        expect(parseNumber(writtenNumber(value))).toBe(value)
      }),
    ))

  it('is said in the words of its unit', () => {
    expect(shownBack('12', 'oz', 355, sayFor('en'))).toBe('12 oz = 355 mL')
    expect(shownBack('1', 'cup', 237, sayFor('en'))).toBe('1 cup = 237 mL')
    expect(shownBack('1,5', 'cup', 355, sayFor('en'))).toBe('1.5 cups = 355 mL')
    expect(shownBack('1,5', 'cup', 355, sayFor('es'))).toBe('1.5 tazas = 355 mL')
    expect(shownBack('250 ml', 'mL', 250, sayFor('es'))).toBe('250 mL')
  })
})
