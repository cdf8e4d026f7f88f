import { describe, expect, it } from 'vitest'
import { bothScales, parseNumber, temperatureInC, volumeInMl } from '../../app/check-in/answers/numbers.ts'

describe('a number as people write it', () => {
  it.each([
    ['250', 250],
    [' 250 ml', 250],
    ['250cc', 250],
    ['12.5', 12.5],
    ['12,5', 12.5],
    ['1,200', 1200],
    ['1 200', 1200],
    ['.5', 0.5],
    ['0', 0],
    ['101.3 F', 101.3],
    ['38,5 °C', 38.5],
  ])('%s', (text, value) => expect(parseNumber(text)).toBe(value))

  it.each(['', '  ', '-5', 'a lot', '300 or 400', '300-400', '1.2.3', '12,5,5', 'NaN', '1e3', undefined])(
    'is not in %s',
    (text) => expect(parseNumber(text)).toBeNull(),
  )
})

describe('a volume', () => {
  it('is shown back and sent in whole mL', () => {
    expect(volumeInMl('12', 'oz')).toBe(355)
    expect(volumeInMl('1,5', 'cup')).toBe(355)
    expect(volumeInMl('120', 'mL')).toBe(120)
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

  it('is shown back in both scales', () => expect(bothScales(38.5)).toBe('38.5 °C (101.3 °F)'))
})
