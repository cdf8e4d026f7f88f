import { describe, expect, it } from 'vitest'
import { chosenLanguage } from '../../app/check-in/words/choose-language.ts'

describe('the language of the page', () => {
  it('is the one chosen on this phone', () => {
    expect(chosenLanguage('ar', 'es')).toBe('ar')
  })

  it.each([
    ['es-MX,es;q=0.9,en;q=0.8', 'es'],
    ['fr-CA, fr;q=0.9, ar;q=0.5, en;q=0.4', 'ar'],
    ['en;q=0.2, es;q=0.7', 'es'],
    ['es;q=0, en', 'en'],
    ['EN-us', 'en'],
    ['xx', 'en'],
    ['', 'en'],
    [';;,,q=', 'en'],
  ])("else the browser's first that there is: %s", (header, language) => {
    expect(chosenLanguage(undefined, header)).toBe(language)
    expect(chosenLanguage('klingon', header)).toBe(language)
  })

  it('else English', () => expect(chosenLanguage(undefined, null)).toBe('en'))
})
