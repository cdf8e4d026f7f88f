import type { Language } from '@/lib/domain/languages.ts'

/**
 * How dates and numbers are written. Spanish as in the United States, whose thermometers and cups the page
 * knows; Arabic with the digits that are printed on bags and bulbs.
 */
const locales: Partial<Record<Language, string>> = { es: 'es-US', ar: 'ar-u-nu-latn' }

export const localeOf = (language: Language): string => locales[language] ?? language
