import type { Language } from '@/lib/domain/languages.ts'
import ar from './ar.json'
import { type Catalogue, type Say, sayIn } from './catalogue.ts'
import en from './en.json'
import es from './es.json'

/** Every language's words, for the server: the phone gets only those of its page. */
const catalogues: Readonly<Record<Language, Catalogue>> = { en, es, ar }

export const wordsFor = (language: Language): Catalogue => catalogues[language]

export const sayFor = (language: Language): Say => sayIn(wordsFor(language), language)
