import { z } from 'zod'
import { languageList } from './language-list.ts'

export { languages } from './language-list.ts'

/** A language in which patients are spoken to. */
export const Language = z.enum(languageList, { error: `accepted: ${languageList.join(', ')}` })
export type Language = z.infer<typeof Language>
