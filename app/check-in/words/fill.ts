import { type Language, languages } from '@/lib/domain/language-list.ts'
import { localeOf } from './locale.ts'

/** One entry of a catalogue: a text, or one text per plural category of the language. */
export type Entry = string | Partial<Record<Intl.LDMLPluralRule, string>>
export type Values = Readonly<Record<string, string | number>>

/**
 * A text of a catalogue with its places filled. Where an entry has plural forms, `count` chooses among them.
 * Numbers are written in the page's language, without marks between thousands: '1.200' is not 1200 everywhere.
 * @example fill('Step {n} of {of}', 'en', { n: 2, of: 7 }) // 'Step 2 of 7'
 */
export function fill(entry: Entry, language: Language, values: Values = {}): string {
  const text = typeof entry === 'string' ? entry : formOf(entry, language, values.count)
  return text.replace(/\{(\w+)\}(\.?)/g, (place, name: string, stop: string) => {
    const value = values[name]
    if (value === undefined) return place
    const filled = typeof value === 'number' ? numberIn(language, value) : value
    // '8:05 a.m.' ends a sentence by itself.
    return isolated(filled, language) + (filled.endsWith('.') ? '' : stop)
  })
}

function formOf(
  forms: Exclude<Entry, string>,
  language: Language,
  count: string | number | undefined,
): string {
  const category = new Intl.PluralRules(localeOf(language)).select(Number(count ?? 0))
  return forms[category] ?? forms.other ?? ''
}

const numberIn = (language: Language, value: number): string =>
  new Intl.NumberFormat(localeOf(language), { useGrouping: false, maximumFractionDigits: 2 }).format(value)

/** A filled-in value in a right-to-left text keeps its own direction (FSI … PDI), so that its parts stay in order. */
const isolated = (value: string, language: Language): string =>
  languages[language].dir === 'rtl' ? `\u2068${value}\u2069` : value
