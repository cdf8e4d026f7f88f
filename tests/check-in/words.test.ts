import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import type { Catalogue, WordKey } from '../../app/check-in/words/catalogue.ts'
import { sayFor, wordsFor } from '../../app/check-in/words/catalogues.ts'
import { type Entry, fill } from '../../app/check-in/words/fill.ts'
import { localeOf } from '../../app/check-in/words/locale.ts'
import { Language } from '../../lib/domain/languages.ts'

const folder = fileURLToPath(new URL('../../app/check-in/', import.meta.url))
const others = Language.options.filter((language) => language !== 'en')
const keys = Object.keys(wordsFor('en')) as WordKey[]

const formsOf = (entry: Entry) => (typeof entry === 'string' ? [entry] : Object.values(entry))
const placesIn = (text: string) => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort()
/** Every place that an entry has in any of its forms: 'one' may say its number in words. */
const placesOf = (entry: Entry) => [...new Set(formsOf(entry).flatMap(placesIn))].sort()

describe.each(others)('the catalogue %s', (language) => {
  const words: Catalogue = wordsFor(language)

  it('has the keys of English and no other but the mark of review', () => {
    expect(Object.keys(words).filter((key) => key !== '_review')).toEqual(keys)
  })

  it('has the places of English in every text', () => {
    for (const key of keys) expect([key, placesOf(words[key])]).toEqual([key, placesOf(wordsFor('en')[key])])
  })

  it('says at its top that it waits for review', () => {
    expect(words._review).toMatch(/\S/)
  })

  it('leaves nothing in English', () => {
    const same = keys.filter((key) => {
      const [one] = formsOf(words[key])
      return one === formsOf(wordsFor('en')[key])[0] && /[a-z]{3}/.test(one?.replace(/\{\w+\}/g, '') ?? '')
    })
    expect(same).toEqual([])
  })
})

describe.each(Language.options)('plurals in %s', (language) => {
  const categories = new Intl.PluralRules(localeOf(language)).resolvedOptions().pluralCategories

  it('have a text for every category of the language and no other', () => {
    for (const key of keys) {
      const entry: Entry = wordsFor(language)[key]
      if (typeof entry !== 'string')
        expect([key, Object.keys(entry).sort()]).toEqual([key, categories.toSorted()])
    }
  })
})

describe('keys', () => {
  it('are all used, and all that are used are there', () => {
    const source = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => /\.tsx?$/.test(file))
      .map((file) => readFileSync(path.join(folder, file), 'utf8'))
      .join('\n')
    const literal = new Set([...source.matchAll(/'([\w.-]+)'/g)].map(([, key]) => key))
    // `looks.${word}` stands for every key that begins so.
    const begun = [...source.matchAll(/say\(`([\w.-]+\.)\$\{/g)].map(([, start = '']) => start)
    const unused = keys.filter((key) => !literal.has(key) && !begun.some((start) => key.startsWith(start)))
    expect(unused).toEqual([])
  })
})

describe('a text', () => {
  it('is filled, and a place without a value stays in sight', () => {
    expect(fill('Step {n} of {of}', 'en', { n: 2, of: 7 })).toBe('Step 2 of 7')
    expect(fill('Hello {name}', 'en')).toBe('Hello {name}')
    expect(fill('{name}', 'en', { name: '{n}', n: 1 })).toBe('{n}')
  })

  it('ends with one full stop', () => {
    expect(fill('Last time: {when}.', 'en', { when: '8:05 a.m.' })).toBe('Last time: 8:05 a.m.')
    expect(fill('Last time: {when}.', 'en', { when: '8:05' })).toBe('Last time: 8:05.')
  })

  it('has the form of its number', () => {
    const say = sayFor('ar')
    const forms = [0, 1, 2, 3, 11, 100].map((count) => say('waits', { count }))
    expect(new Set(forms).size).toBe(6)
    expect(sayFor('en')('waits', { count: 1 })).toMatch(/^One report/)
    expect(sayFor('es')('waits', { count: 3 })).toContain('3 reportes')
  })

  it('has numbers that nobody misreads: no mark between thousands, the digits that are on the bag', () => {
    for (const language of Language.options)
      expect(sayFor(language)('milliliters', { ml: 1234.5 })).toMatch(/1234\.5/)
  })

  it('keeps the order of what is filled in, where the text runs from right to left', () => {
    expect(sayFor('ar')('milliliters', { ml: 250 })).toBe('\u2068250\u2069 مل')
  })
})
