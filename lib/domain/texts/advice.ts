import type { AdviceName, AdviceTexts } from '../advice-text.ts'
import type { Language } from '../languages.ts'
import { adviceAr } from './advice-ar.ts'
import { adviceEn } from './advice-en.ts'
import { adviceEs } from './advice-es.ts'

/** The version of a text that a clinic has not replaced by one of its own. */
export const STANDARD = 'standard'

const standard = (texts: Readonly<Record<AdviceName, string>>, read: boolean): AdviceTexts =>
  Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [name, { text, version: STANDARD, read }]),
  ) as AdviceTexts

/**
 * The texts that ship, per language. The English ones are the project's own words; each clinic approves them or
 * puts its own in their place. A translation counts as unread until a clinic names the qualified person who read it.
 */
export const standardAdvice: Readonly<Record<Language, AdviceTexts>> = {
  en: standard(adviceEn, true),
  es: standard(adviceEs, false),
  ar: standard(adviceAr, false),
}
