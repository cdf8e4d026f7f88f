import { z } from 'zod'
import { type Handover, HandoverLine, HandoverSheet } from '../domain/handover.ts'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { json, type Rows, rowOf, rowsOf, sql } from './rows.ts'

const StoredHandover = z
  .object({
    id: z.string(),
    recordedAt: Instant,
    givenBy: z.string(),
    givenByName: z.string(),
    givenAt: Instant.nullable(),
    takenBy: z.string().nullable(),
    takenByName: z.string().nullable(),
    takenAt: Instant.nullable(),
    note: z.string().nullable(),
    withdrawnAt: Instant.nullable(),
    body: json(HandoverSheet).nullable(),
  })
  .transform(({ withdrawnAt, body, ...row }) => ({
    withdrawnAt,
    body,
    handover: {
      id: row.id,
      openedAt: row.recordedAt,
      givenBy: { id: row.givenBy, name: row.givenByName },
      givenAt: row.givenAt,
      takenBy: row.takenBy === null ? null : { id: row.takenBy, name: row.takenByName ?? row.takenBy },
      takenAt: row.takenAt,
      note: row.note ?? '',
    } satisfies Handover,
  }))
/** A handover as it is kept; `body` is the page as it was signed by both. */
export type KeptHandover = z.infer<typeof StoredHandover>
const shape = StoredHandover as unknown as z.ZodType<KeptHandover>

const columns = sql`SELECT h.*, COALESCE(g."name", h."givenBy") AS "givenByName", COALESCE(t."name", h."takenBy") AS "takenByName"
    FROM "Handover" h LEFT JOIN "Staff" g ON g."id" = h."givenBy" LEFT JOIN "Staff" t ON t."id" = h."takenBy"`

export const handoverById = (tx: Tx, clinicId: string, id: string): Promise<KeptHandover | null> =>
  rowOf(tx, 'handover', shape, sql`${columns} WHERE h."id" = ${id} AND h."clinicId" = ${clinicId}`)

/** The one that is neither signed by both nor withdrawn; a clinic has one at the most. */
export const openHandoverOf = (tx: Tx, clinicId: string): Promise<KeptHandover | null> =>
  rowOf(
    tx,
    'handover',
    shape,
    sql`${columns} WHERE h."clinicId" = ${clinicId} AND h."body" IS NULL AND h."withdrawnAt" IS NULL
        ORDER BY h."recordedAt" DESC LIMIT 1`,
  )

/** The page that was signed last. */
export const lastSignedOf = (tx: Tx, clinicId: string): Promise<KeptHandover | null> =>
  rowOf(
    tx,
    'handover',
    shape,
    sql`${columns} WHERE h."clinicId" = ${clinicId} AND h."body" IS NOT NULL ORDER BY h."recordedAt" DESC LIMIT 1`,
  )

const StoredLine = z
  .object({ ...HandoverLine.shape, givenAt: Instant.nullable(), takenAt: Instant.nullable() })
  .omit({ signedAt: true, accepted: true })
  .extend({ accepted: z.coerce.number() })
  .transform(({ givenAt, takenAt, ...line }): HandoverLine => {
    const both = givenAt !== null && takenAt !== null ? [givenAt, takenAt].toSorted() : []
    return { ...line, signedAt: both[1] ?? null }
  })

/** The latest handovers that are over, the latest first. */
export const handoversOf = (tx: Tx, clinicId: string, most: number): Promise<Rows<HandoverLine>> =>
  rowsOf(
    tx,
    'handover',
    StoredLine as unknown as z.ZodType<HandoverLine>,
    sql`SELECT h."id", h."recordedAt" AS "openedAt", h."givenAt", h."takenAt", h."withdrawnAt",
          COALESCE(g."name", h."givenBy") AS "givenBy", COALESCE(t."name", h."takenBy") AS "takenBy",
          COALESCE(w."name", h."withdrawnBy") AS "withdrawnBy",
          (SELECT COUNT(*) FROM "HandoverRow" r WHERE r."handoverId" = h."id") AS "accepted"
        FROM "Handover" h LEFT JOIN "Staff" g ON g."id" = h."givenBy" LEFT JOIN "Staff" t ON t."id" = h."takenBy"
          LEFT JOIN "Staff" w ON w."id" = h."withdrawnBy"
        WHERE h."clinicId" = ${clinicId} AND (h."body" IS NOT NULL OR h."withdrawnAt" IS NOT NULL)
        ORDER BY h."recordedAt" DESC LIMIT ${most}`,
  )

const Acceptance = z.object({
  patientId: z.string(),
  by: z.string(),
  name: z.string(),
  at: Instant,
})
export type Acceptance = z.infer<typeof Acceptance>

export const acceptancesOf = (tx: Tx, handoverId: string): Promise<Rows<Acceptance>> =>
  rowsOf(
    tx,
    'acceptance',
    Acceptance,
    sql`SELECT r."patientId", r."acceptedBy" AS "by", COALESCE(s."name", r."acceptedBy") AS "name", r."acceptedAt" AS "at"
        FROM "HandoverRow" r LEFT JOIN "Staff" s ON s."id" = r."acceptedBy" WHERE r."handoverId" = ${handoverId}`,
  )

export async function addHandover(
  tx: Tx,
  handover: { id: string; clinicId: string; recordedAt: string; givenBy: string; note: string },
): Promise<void> {
  await tx.handover.create({ data: handover })
}

export async function addAcceptance(
  tx: Tx,
  row: { handoverId: string; patientId: string; acceptedBy: string; acceptedAt: string },
): Promise<void> {
  await tx.handoverRow.create({ data: row })
}

type Change =
  | { note: string }
  | { givenAt: string }
  | { takenBy: string; takenAt: string }
  | { withdrawnAt: string; withdrawnBy: string }

/** Writes what was not written before; what is signed by both is never written again. */
export async function saveHandover(tx: Tx, id: string, change: Change): Promise<void> {
  await tx.handover.updateMany({ where: { id, body: null }, data: change })
}

/** Freezes the page as both have signed it. */
export async function sealHandover(tx: Tx, id: string, body: HandoverSheet): Promise<void> {
  await tx.handover.updateMany({ where: { id, body: null }, data: { body: JSON.stringify(body) } })
}
