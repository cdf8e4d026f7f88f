import { z } from 'zod'
import { Instant, LocalDate } from '../domain/instant.ts'
import { Harm, ReadingNo, type Review, Truly, Verdict } from '../domain/review.ts'
import { may, Role } from '../domain/staff.ts'
import { FindingCode } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { Bit, type Rows, rowsOf, sql } from './rows.ts'

const StoredReview = z
  .object({
    id: z.string(),
    itemId: z.string(),
    reading: z.coerce.number().pipe(ReadingNo),
    verdict: Verdict,
    truly: Truly.nullable(),
    harm: Harm,
    note: z.string().nullable(),
    isOpened: Bit,
    recordedAt: Instant,
    recordedBy: z.string(),
  })
  .transform(({ recordedAt, recordedBy, ...rest }): Review => ({ ...rest, at: recordedAt, byId: recordedBy }))
const shape = StoredReview as unknown as z.ZodType<Review>

/** The verdicts on some items, in the order in which they were given. */
export const reviewsOf = (tx: Tx, itemIds: readonly string[]): Promise<Rows<Review>> =>
  rowsOf(
    tx,
    'review',
    shape,
    sql`SELECT * FROM "Review" WHERE "itemId" IN (SELECT value FROM json_each(${JSON.stringify(itemIds)}))
        ORDER BY "recordedAt", rowid`,
  )

/** The verdicts on the items of all weeks from one on. */
export const reviewsFrom = (tx: Tx, clinicId: string, week: string): Promise<Rows<Review>> =>
  rowsOf(
    tx,
    'review',
    shape,
    sql`SELECT r.* FROM "ReviewItem" i JOIN "Review" r ON r."itemId" = i."id"
        WHERE i."clinicId" = ${clinicId} AND i."week" >= ${week} ORDER BY r."recordedAt", r.rowid`,
  )

export async function addReview(tx: Tx, clinicId: string, review: Review): Promise<void> {
  const { at, byId, ...rest } = review
  await tx.review.create({ data: { ...rest, clinicId, recordedAt: at, recordedBy: byId } })
}

/** The ids of those of a clinic's staff who may read the audit and can still sign in. */
export async function readersOf(tx: Tx, clinicId: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string; role: string }[]>(
    sql`SELECT "id", "role" FROM "Staff" WHERE "clinicId" = ${clinicId} AND "disabledAt" IS NULL ORDER BY "id"`,
  )
  return rows
    .filter(({ role }) => {
      const known = Role.safeParse(role)
      return known.success && may(known.data, 'audit')
    })
    .map(({ id }) => id)
}

const Person = z.object({ id: z.string(), name: z.string(), birthDate: LocalDate, recordNumber: z.string() })

/** Who some patients of a clinic are, by id. */
export async function personsOf(
  tx: Tx,
  clinicId: string,
  ids: readonly string[],
): Promise<Map<string, z.infer<typeof Person>>> {
  const query = sql`SELECT "id", "name", "birthDate", "recordNumber" FROM "Patient" WHERE "clinicId" = ${clinicId}
    AND "id" IN (SELECT value FROM json_each(${JSON.stringify(ids)}))`
  return new Map((await rowsOf(tx, 'patient', Person, query)).rows.map((person) => [person.id, person]))
}

export const OPENED = 'open-review'
const openedWhat = (itemId: string, reading: number) =>
  `opened what happened to item ${itemId}, reading ${reading}`

/** What the access record says of whoever opens an item after the verdict of a reading. */
export const openedEntry = (itemId: string, reading: number) => ({
  action: OPENED,
  what: openedWhat(itemId, reading),
})

/** Whether a person ever opened an item, after whichever reading: the access record knows. */
export async function hasOpened(
  tx: Tx,
  { clinicId, staffId, patientId }: { clinicId: string; staffId: string; patientId: string },
  itemId: string,
): Promise<boolean> {
  const entries = JSON.stringify([1, 2, 3].map((reading) => openedWhat(itemId, reading)))
  const found = await tx.$queryRaw<unknown[]>(
    sql`SELECT 1 FROM "AccessRecord" WHERE "clinicId" = ${clinicId} AND "patientId" = ${patientId}
        AND "staffId" = ${staffId} AND "action" = ${OPENED}
        AND "what" IN (SELECT value FROM json_each(${entries})) LIMIT 1`,
  )
  return found.length > 0
}

const CalledItem = z.object({
  itemId: z.string(),
  twice: Bit,
  flagId: z.string(),
  code: FindingCode,
  openedAt: Instant,
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
})
export type CalledItem = z.infer<typeof CalledItem>

/** The items that are flags which a person's calls closed or tried, while they stood; the latest opened first. */
export const itemsCalledBy = (
  tx: Tx,
  clinicId: string,
  staffId: string,
  from: string,
): Promise<Rows<CalledItem>> =>
  rowsOf(
    tx,
    'review item',
    CalledItem,
    sql`SELECT i."id", i."id" AS "itemId", i."twice", f."id" AS "flagId", f."code", f."openedAt", p."id" AS "patientId",
          p."name", p."birthDate", p."recordNumber"
        FROM "Callback" c JOIN "Flag" f ON f."patientId" = c."patientId" AND f."openedAt" <= c."at"
          JOIN "ReviewItem" i ON i."flagId" = f."id" JOIN "Patient" p ON p."id" = f."patientId"
        WHERE c."clinicId" = ${clinicId} AND c."recordedBy" = ${staffId} AND c."undoneAt" IS NULL AND c."at" >= ${from}
          AND c."at" <= COALESCE(f."closedAt", f."endedAt", c."at")
        GROUP BY i."id" ORDER BY f."openedAt" DESC, f."id"`,
  )
