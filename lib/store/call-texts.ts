import { z } from 'zod'
import { CallTextBody, type NewCallText, type OwnCallTexts } from '../domain/call-text.ts'
import { Instant } from '../domain/instant.ts'
import { FindingCode } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { json, newId, type Rows, rowsOf, sql } from './rows.ts'

const StoredCallText = z.object({
  id: z.string(),
  code: FindingCode,
  version: z.number(),
  body: json(CallTextBody.nullable()),
  recordedAt: Instant,
  recordedBy: z.string(),
})
export type StoredCallText = z.infer<typeof StoredCallText>

/** Every version of a clinic's texts of the call, the newest of a finding first. */
export const callTextsOf = (tx: Tx, clinicId: string): Promise<Rows<StoredCallText>> =>
  rowsOf(
    tx,
    'text of the call',
    StoredCallText,
    sql`SELECT * FROM "CallText" WHERE "clinicId" = ${clinicId} ORDER BY "code", "version" DESC`,
  )

/**
 * The clinic's own texts in force, by finding: the newest version of each, unless it went back to the standard. One
 * that cannot be read gives way to the standard text, never to an older version.
 */
export async function ownCallTexts(tx: Tx, clinicId: string): Promise<OwnCallTexts> {
  const { rows } = await rowsOf(
    tx,
    'text of the call',
    StoredCallText,
    sql`SELECT t.* FROM "CallText" t WHERE t."clinicId" = ${clinicId}
        AND t."version" = (SELECT MAX(n."version") FROM "CallText" n
          WHERE n."clinicId" = t."clinicId" AND n."code" = t."code")`,
  )
  return Object.fromEntries(
    rows.flatMap(({ code, version, body }) => (body === null ? [] : [[code, { version, body }]])),
  )
}

/** The number of the newest version of a finding's texts; 0 where the clinic has none of its own. */
export async function newestCallText(tx: Tx, clinicId: string, code: FindingCode): Promise<number> {
  const newest = await tx.callText.aggregate({ where: { clinicId, code }, _max: { version: true } })
  return newest._max.version ?? 0
}

/** Adds a version. A version's words are never changed. */
export async function addCallText(
  tx: Tx,
  clinicId: string,
  text: Pick<NewCallText, 'code' | 'body'> & { version: number },
  recorded: { recordedAt: string; recordedBy: string },
): Promise<void> {
  const { code, version, body } = text
  await tx.callText.create({
    data: { id: newId(), clinicId, code, version, body: JSON.stringify(body), ...recorded },
  })
}
