import { z } from 'zod'

/** Languages in which patients are spoken to. Adding one is an entry here and a catalogue (app/check-in/words, lib/domain/texts). */
export const Language = z.enum(['en', 'es', 'ar'], { error: 'accepted: en, es, ar' })
export type Language = z.infer<typeof Language>

/** Each language by its own name, and the direction in which it is written. */
export const languages: Readonly<Record<Language, { name: string; dir: 'ltr' | 'rtl' }>> = {
  en: { name: 'English', dir: 'ltr' },
  es: { name: 'Español', dir: 'ltr' },
  ar: { name: 'العربية', dir: 'rtl' },
}
