import type { AdviceTexts } from '../domain/advice-text.ts'
import { Language } from '../domain/languages.ts'
import { standardAdvice } from '../domain/texts/advice.ts'
import { approvedTextsOf, type StoredText } from '../store/advice-texts.ts'
import type { Tx } from '../store/index.ts'

/** All that a clinic's patients read, per language: its newest approved version of a text, else the standard one. */
export async function textsInForce(tx: Tx, clinicId: string): Promise<Record<Language, AdviceTexts>> {
  // A version that cannot be read hides no text: the standard one stands in for it.
  const { rows } = await approvedTextsOf(tx, clinicId)
  return Object.fromEntries(
    Language.options.map((language) => [
      language,
      { ...standardAdvice[language], ...ownTexts(rows.filter((row) => row.language === language)) },
    ]),
  ) as Record<Language, AdviceTexts>
}

const ownTexts = (rows: readonly StoredText[]): Partial<AdviceTexts> =>
  Object.fromEntries(
    rows.map((row) => [row.name, { text: row.text, version: String(row.version), read: isRead(row) }]),
  )

/** An English text is read by whoever approves it; a translation by the qualified person whose name stands with it. */
export const isRead = ({
  language,
  approvedAt,
  readBy,
}: Pick<StoredText, 'language' | 'approvedAt' | 'readBy'>) =>
  approvedAt !== null && (language === 'en' || readBy !== null)
