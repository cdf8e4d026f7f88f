import { z } from 'zod'
import { FlagStepKind } from '../domain/flag.ts'
import { Instant, LocalDate } from '../domain/instant.ts'
import { type ReviewItem, Stratum } from '../domain/review.ts'
import { FindingCode, Nature, type Urgency } from '../domain/words.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { insertMany } from './insert-many.ts'
import { Bit, type Rows, rowOf, rowsOf, sql } from './rows.ts'

/** An item as it is kept: with when and by whom its week was drawn. */
export type KeptItem = ReviewItem & { recordedAt: string; recordedBy: string }

const StoredItem = z
  .object({
    id: z.string(),
    week: LocalDate,
    kind: z.enum(['flag', 'day']),
    patientId: z.string(),
    drainId: z.string().nullable(),
    flagId: z.string().nullable(),
    at: Instant,
    stratum: Stratum,
    probability: z.coerce.number(),
    twice: Bit,
    ordinal: z.coerce.number(),
    recordedAt: Instant,
    recordedBy: z.string(),
  })
  .transform(({ drainId, ...rest }): KeptItem => ({ ...rest, drain: drainId }))
const shape = StoredItem as unknown as z.ZodType<KeptItem>

/** The items of one week, in the order in which they were shuffled. */
export const itemsOfWeek = (tx: Tx, clinicId: string, week: string): Promise<Rows<KeptItem>> =>
  rowsOf(
    tx,
    'review item',
    shape,
    sql`SELECT * FROM "ReviewItem" WHERE "clinicId" = ${clinicId} AND "week" = ${week} ORDER BY "ordinal"`,
  )

/** The items of all weeks from one on. */
export const itemsFrom = (tx: Tx, clinicId: string, week: string): Promise<Rows<KeptItem>> =>
  rowsOf(
    tx,
    'review item',
    shape,
    sql`SELECT * FROM "ReviewItem" WHERE "clinicId" = ${clinicId} AND "week" >= ${week} ORDER BY "week" DESC, "ordinal"`,
  )

export const itemById = (tx: Tx, clinicId: string, id: string): Promise<KeptItem | null> =>
  rowOf(
    tx,
    'review item',
    shape,
    sql`SELECT * FROM "ReviewItem" WHERE "id" = ${id} AND "clinicId" = ${clinicId}`,
  )

/** The items that are some flags. Sought by the flag, not among all items of the clinic: hence the plus. */
export const flagItemsOf = (tx: Tx, clinicId: string, flagIds: readonly string[]): Promise<Rows<KeptItem>> =>
  rowsOf(
    tx,
    'review item',
    shape,
    sql`SELECT * FROM "ReviewItem" WHERE +"clinicId" = ${clinicId}
        AND "flagId" IN (SELECT value FROM json_each(${JSON.stringify(flagIds)}))`,
  )

export async function addItems(
  tx: Tx,
  clinicId: string,
  items: readonly ReviewItem[],
  recorded: { recordedAt: string; recordedBy: string },
): Promise<void> {
  const rows = items.map(({ drain, twice, ...item }) => ({
    ...item,
    clinicId,
    drainId: drain,
    twice: twice ? 1 : 0,
    ...recorded,
  }))
  const checked = rows satisfies (Omit<Prisma.ReviewItemUncheckedCreateInput, 'twice'> & { twice: number })[]
  await insertMany(tx, 'ReviewItem', checked)
}

const OpenedFlag = z.object({
  id: z.string(),
  patientId: z.string(),
  drain: z.string().nullable(),
  code: FindingCode,
  nature: Nature,
  openedAt: Instant,
  rank: z.coerce.number(),
})
export type OpenedFlag = z.infer<typeof OpenedFlag>

/** The flags of a clinic that opened in a span of time, each with the rank of the highest urgency that it had by its end. */
export const flagsOpenedIn = (
  tx: Tx,
  clinicId: string,
  from: string,
  until: string,
): Promise<Rows<OpenedFlag>> =>
  rowsOf(
    tx,
    'flag',
    OpenedFlag,
    sql`SELECT f."id", f."patientId", f."drainId" AS "drain", f."code", f."nature", f."openedAt",
          COALESCE(MAX(CASE s."urgency" WHEN 'at-once' THEN 4 WHEN 'within-1h' THEN 3 WHEN 'within-24h' THEN 2 ELSE 1 END), 1) AS "rank"
        FROM "Flag" f LEFT JOIN "FlagStep" s ON s."flagId" = f."id" AND s."at" < ${until}
        WHERE f."clinicId" = ${clinicId} AND f."openedAt" >= ${from} AND f."openedAt" < ${until}
        GROUP BY f."id" ORDER BY f."openedAt", f."id"`,
  )

const Turn = z.object({
  patientId: z.string(),
  flagId: z.string(),
  at: Instant,
  kind: FlagStepKind,
})
export type Turn = z.infer<typeof Turn>

/** The steps before `until`, in order, of the flags that stand or have changed since `from`. */
export const turnsOfFlags = (tx: Tx, clinicId: string, from: string, until: string): Promise<Rows<Turn>> =>
  rowsOf(
    tx,
    'flag step',
    Turn,
    sql`SELECT s."id", s."patientId", s."flagId", s."at", s."kind"
        FROM "Flag" f JOIN "FlagStep" s ON s."flagId" = f."id"
        WHERE f."clinicId" = ${clinicId} AND f."openedAt" < ${until} AND s."at" < ${until}
          AND (f."state" IN ('open', 'owed') OR f."changedAt" >= ${from})
        ORDER BY s."flagId", s."at", s.rowid`,
  )

const Followed = z.object({ id: z.string(), from: Instant })
const FollowTurn = z.object({ patientId: z.string(), at: Instant, step: z.string() })
const Stay = z.object({ patientId: z.string(), from: Instant, until: Instant.nullable() })
const Heard = z.object({ patientId: z.string(), at: Instant })

/** Patients of a clinic who were enrolled before `until`, with since when they are followed. */
export const enrolledBefore = (
  tx: Tx,
  clinicId: string,
  until: string,
): Promise<Rows<z.infer<typeof Followed>>> =>
  rowsOf(
    tx,
    'patient',
    Followed,
    sql`SELECT "id", MAX("enrolledAt", "recordedAt") AS "from" FROM "Patient"
        WHERE "clinicId" = ${clinicId} AND "recordedAt" < ${until} AND "enrolledAt" < ${until} ORDER BY "id"`,
  )

/** How follow-up of a clinic's patients ended and went on before `until`, in order. */
export const followTurns = (
  tx: Tx,
  clinicId: string,
  until: string,
): Promise<Rows<z.infer<typeof FollowTurn>>> =>
  rowsOf(
    tx,
    'follow-up step',
    FollowTurn,
    sql`SELECT "id", "patientId", "recordedAt" AS "at", "step" FROM "FollowUpStep"
        WHERE "clinicId" = ${clinicId} AND "recordedAt" < ${until} AND "step" IN ('ended', 'resumed')
        ORDER BY "recordedAt", rowid`,
  )

/** Stays in hospital that touch a span of time. */
export const staysIn = (
  tx: Tx,
  clinicId: string,
  from: string,
  until: string,
): Promise<Rows<z.infer<typeof Stay>>> =>
  rowsOf(
    tx,
    'admission',
    Stay,
    sql`SELECT "id", "patientId", "at" AS "from", "endedAt" AS "until" FROM "Admission"
        WHERE "clinicId" = ${clinicId} AND "at" < ${until} AND ("endedAt" IS NULL OR "endedAt" > ${from})`,
  )

/** When reports of a clinic's patients came in within a span of time, without what turned out to be another patient's. */
export const heardIn = (
  tx: Tx,
  clinicId: string,
  from: string,
  until: string,
): Promise<Rows<z.infer<typeof Heard>>> =>
  rowsOf(
    tx,
    'report',
    Heard,
    sql`SELECT r."id", r."patientId", r."receivedAt" AS "at" FROM "Patient" p JOIN "Report" r ON r."patientId" = p."id"
        WHERE p."clinicId" = ${clinicId} AND r."receivedAt" >= ${from} AND r."receivedAt" < ${until} AND r."movedAt" IS NULL
        ORDER BY r."receivedAt", r."id"`,
  )

const WeekCount = z.object({ week: LocalDate, items: z.coerce.number() })

/** The weeks of a clinic that were drawn. */
export const drawnWeeks = (tx: Tx, clinicId: string): Promise<Rows<z.infer<typeof WeekCount>>> =>
  rowsOf(
    tx,
    'week',
    WeekCount,
    sql`SELECT "week", COUNT(*) AS "items" FROM "ReviewItem" WHERE "clinicId" = ${clinicId} GROUP BY "week"`,
  )

/** Since when a clinic has followed anybody; null where it has nobody. */
export async function firstEnrolmentOf(tx: Tx, clinicId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ at: string | null }[]>(
    sql`SELECT MIN("recordedAt") AS "at" FROM "Patient" WHERE "clinicId" = ${clinicId}`,
  )
  return row?.at ?? null
}

export const urgencyOfRank = (rank: number): Urgency =>
  rank >= 4 ? 'at-once' : rank >= 3 ? 'within-1h' : rank >= 2 ? 'within-24h' : 'within-3d'

/** The version of the rule set under which a flag was opened, where it is known. */
export async function ruleSetOfFlag(tx: Tx, flagId: string): Promise<string | null> {
  const found = await tx.flag.findUnique({ where: { id: flagId }, select: { ruleSet: true } })
  return found?.ruleSet ?? null
}
