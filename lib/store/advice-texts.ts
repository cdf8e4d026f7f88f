import { z } from 'zod'
import { AdviceName } from '../domain/advice-text.ts'
import { Instant } from '../domain/instant.ts'
import { Language } from '../domain/languages.ts'
import type { Tx } from './client.ts'
import { type Rows, rowOf, rowsOf, sql } from './rows.ts'

/** One version of one text in one language, with who wrote it and who answers for it. */
export const StoredText = z.object({
  id: z.string(),
  clinicId: z.string(),
  name: AdviceName,
  language: Language,
  version: z.number(),
  text: z.string(),
  recordedAt: Instant,
  recordedBy: z.string(),
  approvedAt: Instant.nullable(),
  approvedBy: z.string().nullable(),
  readBy: z.string().nullable(),
})
export type StoredText = z.infer<typeof StoredText>

/** Every version of every text of a clinic, the oldest first. */
export const textsOf = (tx: Tx, clinicId: string): Promise<Rows<StoredText>> =>
  rowsOf(
    tx,
    'text of advice',
    StoredText,
    sql`SELECT * FROM "AdviceText" WHERE "clinicId" = ${clinicId} ORDER BY "name", "language", "version"`,
  )

/** The newest approved version of each text: what patients read. */
export const approvedTextsOf = (tx: Tx, clinicId: string): Promise<Rows<StoredText>> =>
  rowsOf(
    tx,
    'text of advice',
    StoredText,
    sql`SELECT t.* FROM "AdviceText" t WHERE t."clinicId" = ${clinicId} AND t."approvedAt" IS NOT NULL
        AND t."version" = (SELECT MAX(n."version") FROM "AdviceText" n WHERE n."clinicId" = t."clinicId"
          AND n."name" = t."name" AND n."language" = t."language" AND n."approvedAt" IS NOT NULL)`,
  )

export const textById = (tx: Tx, id: string): Promise<StoredText | null> =>
  rowOf(tx, 'text of advice', StoredText, sql`SELECT * FROM "AdviceText" WHERE "id" = ${id}`)

export async function newestVersion(
  tx: Tx,
  { clinicId, name, language }: Pick<StoredText, 'clinicId' | 'name' | 'language'>,
): Promise<number> {
  const newest = await tx.adviceText.aggregate({
    where: { clinicId, name, language },
    _max: { version: true },
  })
  return newest._max.version ?? 0
}

/** Adds a version. A version's words are never changed. */
export async function addText(tx: Tx, text: StoredText): Promise<void> {
  await tx.adviceText.create({ data: text })
}

export async function approve(
  tx: Tx,
  id: string,
  by: { approvedAt: string; approvedBy: string; readBy: string | null },
): Promise<void> {
  await tx.adviceText.update({ where: { id }, data: by })
}
