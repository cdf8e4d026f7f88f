import { z } from 'zod'
import { TimeZone } from '../domain/instant.ts'
import { NoAnswer, standardNoAnswer } from '../domain/no-answer.ts'
import type { Tx } from './client.ts'
import { json, rowOf, sql } from './rows.ts'

const NoAnswerClinic = z
  .object({ id: z.string(), timeZone: TimeZone, noAnswer: json(NoAnswer).nullable() })
  .transform(({ noAnswer, timeZone }) => ({
    timeZone,
    isStandard: noAnswer === null,
    rules: noAnswer ?? standardNoAnswer,
  }))
/** A clinic as its no-answer rule needs it. */
export type NoAnswerClinic = z.infer<typeof NoAnswerClinic>
const shape = NoAnswerClinic as unknown as z.ZodType<NoAnswerClinic>

export const noAnswerClinic = (tx: Tx, id: string): Promise<NoAnswerClinic | null> =>
  rowOf(tx, 'clinic', shape, sql`SELECT "id", "timeZone", "noAnswer" FROM "Clinic" WHERE "id" = ${id}`)

export async function saveNoAnswer(tx: Tx, id: string, rules: NoAnswer | null): Promise<void> {
  await tx.clinic.update({ where: { id }, data: { noAnswer: rules ? JSON.stringify(rules) : null } })
}
