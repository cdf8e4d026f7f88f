import { describe, expect, it } from 'vitest'
import { wordsFor } from '../../app/check-in/words/catalogues.ts'
import {
  englishGrade,
  SPANISH_SIXTH_GRADE,
  spanishEase,
  spanishSyllables,
  wordCount,
} from '../support/readability.ts'

// A formula says little of a few words: short labels are read together, longer texts each by itself.
const LONG_ENOUGH = 8

/** The sentence that every screen must carry as it stands: 'emergency' twice is hard to the formula, and known to all. */
const FIXED = ['emergency', '_review']

function textsOf(language: 'en' | 'es'): [string, string][] {
  return Object.entries(wordsFor(language)).flatMap(([key, entry]) =>
    typeof entry === 'string'
      ? [[key, entry] as [string, string]]
      : Object.entries(entry).map(([form, text]) => [`${key} (${form})`, text] as [string, string]),
  )
}
const asOneText = (texts: [string, string][]) => texts.map(([, text]) => text).join('. ')
const long = (texts: [string, string][]) =>
  texts.filter(([key, text]) => !FIXED.includes(key) && wordCount(text) >= LONG_ENOUGH)

describe('syllables of Spanish', () => {
  it.each([
    ['agua', 2],
    ['vacío', 3],
    ['líquido', 3],
    ['aeropuerto', 5],
    ['reunión', 2],
    ['día', 2],
    ['emergencia', 4],
    ['muy', 1],
    ['ayer', 2],
    ['hay', 1],
    ['siguiente', 3],
    ['guía', 2],
    ['y', 1],
  ])('%s has %i', (word, count) => expect(spanishSyllables(word)).toBe(count))
})

describe("the page's words can be read in the sixth grade", () => {
  it('in English', () => {
    const texts = textsOf('en')
    expect(englishGrade(asOneText(texts))).toBeLessThanOrEqual(6)
    const hard = long(texts).filter(([, text]) => englishGrade(text) > 6)
    expect(hard.map(([key, text]) => `${key} ${englishGrade(text).toFixed(1)} ${text}`)).toEqual([])
  })

  it('in Spanish', () => {
    const texts = textsOf('es')
    expect(spanishEase(asOneText(texts))).toBeGreaterThanOrEqual(SPANISH_SIXTH_GRADE)
    const hard = long(texts).filter(([, text]) => spanishEase(text) < SPANISH_SIXTH_GRADE)
    expect(hard.map(([key, text]) => `${key} ${spanishEase(text).toFixed(0)} ${text}`)).toEqual([])
  })

  it('and the formulas tell hard from easy', () => {
    const hard =
      'Percutaneous nephrostomy catheter dislodgement necessitates immediate radiological re-evaluation.'
    expect(englishGrade(hard)).toBeGreaterThan(12)
    expect(englishGrade('Call your clinic now. Do not wait.')).toBeLessThan(3)
    expect(
      spanishEase('La obstrucción del catéter percutáneo requiere reevaluación radiológica inmediata.'),
    ).toBeLessThan(40)
    expect(spanishEase('Llame a su clínica ahora. No espere.')).toBeGreaterThan(80)
  })
})
