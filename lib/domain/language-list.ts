/**
 * Each language in which patients are spoken to, by its own name, and the direction in which it is written. Apart from
 * its schema, so that the check-in page carries no validator. Adding one is an entry here and a catalogue
 * (app/check-in/words, lib/domain/texts).
 */
export const languages = {
  en: { name: 'English', dir: 'ltr' },
  es: { name: 'Español', dir: 'ltr' },
  ar: { name: 'العربية', dir: 'rtl' },
} as const satisfies Record<string, { name: string; dir: 'ltr' | 'rtl' }>

export type Language = keyof typeof languages

/** All of them, in the order in which they are offered. */
export const languageList = Object.keys(languages) as Language[]

export const isLanguage = (text: unknown): text is Language => languageList.some((one) => one === text)
