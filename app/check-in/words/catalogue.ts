import type { Language } from '@/lib/domain/languages.ts'
import type en from './en.json'
import { type Entry, fill, type Values } from './fill.ts'

/** The keys of English are the keys of every language. */
export type WordKey = keyof typeof en

/** The page's own words in one language. `_review` stands in a catalogue that no qualified person has read yet. */
export type Catalogue = Readonly<Record<WordKey, Entry>> & { readonly _review?: string }

/** Says a text of the page in its language; carries the language for dates and numbers. */
export type Say = ((key: WordKey, values?: Values) => string) & { readonly language: Language }

export const sayIn = (words: Catalogue, language: Language): Say =>
  Object.assign((key: WordKey, values?: Values) => fill(words[key], language, values), { language })
