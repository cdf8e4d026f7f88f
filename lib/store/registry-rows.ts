import { z } from 'zod'
import { Instant, LocalDate } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

/* What an export without identifiers is made from. These rows still name people: lib/audit/registry alone reads them. */

const Count = z.coerce.number()
const listed = (ids: readonly string[]) => sql`(SELECT value FROM json_each(${JSON.stringify(ids)}))`

/** Whoever withdrew consent is in no export, in no row and in no count. */
const withdrawn = (clinicId: string) =>
  sql`(SELECT "id" FROM "Patient" WHERE "clinicId" = ${clinicId} AND "followUpEnd" = 'consent-withdrawn')`

const RegistryPatient = z.object({
  id: z.string(),
  birthDate: LocalDate,
  timeZone: z.string(),
  /** When the first drain was placed. */
  firstAt: Instant,
})
export type RegistryPatient = z.infer<typeof RegistryPatient>

/** Every patient of a clinic who has a drain and did not withdraw consent. */
export const registryPatients = (tx: Tx, clinicId: string): Promise<Rows<RegistryPatient>> =>
  rowsOf(
    tx,
    'patient',
    RegistryPatient,
    sql`SELECT p."id", p."birthDate", p."timeZone", MIN(d."placedAt") AS "firstAt" FROM "Patient" p
        JOIN "Drain" d ON d."patientId" = p."id" WHERE p."clinicId" = ${clinicId}
          AND p."id" NOT IN ${withdrawn(clinicId)} GROUP BY p."id"`,
  )

/** How many patients of a clinic are left out: they withdrew consent. */
export async function registryLeftOut(tx: Tx, clinicId: string): Promise<number> {
  const { rows } = await rowsOf(
    tx,
    'count',
    z.object({ patients: Count }),
    sql`SELECT COUNT(*) AS "patients" FROM ${withdrawn(clinicId)}`,
  )
  return rows[0]?.patients ?? 0
}

const RegistryDrain = z.object({
  id: z.string(),
  patientId: z.string(),
  ordinal: Count,
  kind: z.string(),
  placedAt: Instant,
  enrolledAt: Instant,
  followUpEndedAt: Instant.nullable(),
  followUpEnd: z.string().nullable(),
  removedAt: Instant.nullable(),
  tubeAt: Instant.nullable(),
  exchanges: Count,
  readings: Count,
})
export type RegistryDrain = z.infer<typeof RegistryDrain>

/** The drains of some patients. `tubeAt`: when a tube was last placed after the first. */
export const registryDrains = (tx: Tx, patients: readonly string[]): Promise<Rows<RegistryDrain>> =>
  rowsOf(
    tx,
    'drain',
    RegistryDrain,
    sql`SELECT d."id", d."patientId", d."ordinal", d."kind", d."placedAt", p."enrolledAt", p."followUpEndedAt", p."followUpEnd",
          (SELECT MAX(e."at") FROM "StaffEvent" e WHERE e."patientId" = d."patientId" AND e."drainId" = d."id"
            AND e."type" = 'removed' AND e."withdrawnAt" IS NULL) AS "removedAt",
          (SELECT MAX(e."at") FROM "StaffEvent" e WHERE e."patientId" = d."patientId" AND e."drainId" = d."id"
            AND e."type" IN ('placed', 'exchanged', 'replaced') AND e."withdrawnAt" IS NULL) AS "tubeAt",
          (SELECT COUNT(*) FROM "StaffEvent" e WHERE e."patientId" = d."patientId" AND e."drainId" = d."id"
            AND e."type" IN ('exchanged', 'replaced') AND e."withdrawnAt" IS NULL) AS "exchanges",
          (SELECT COUNT(*) FROM "Reading" r WHERE r."patientId" = d."patientId" AND r."drainId" = d."id") AS "readings"
        FROM "Drain" d JOIN "Patient" p ON p."id" = d."patientId" WHERE d."patientId" IN ${listed(patients)}`,
  )

const RegistryFlag = z.object({
  id: z.string(),
  patientId: z.string(),
  kind: z.string().nullable(),
  placedAt: Instant.nullable(),
  code: z.string(),
  nature: z.string(),
  urgency: z.string(),
  state: z.string(),
  openedAt: Instant,
  attemptAt: Instant.nullable(),
  reachedAt: Instant.nullable(),
})
export type RegistryFlag = z.infer<typeof RegistryFlag>

/** The flags of some patients, with the first call while each stood and the first that reached somebody. */
export const registryFlags = (tx: Tx, patients: readonly string[]): Promise<Rows<RegistryFlag>> => {
  const first = (outcome: ReturnType<typeof sql>) =>
    sql`(SELECT MIN(c."at") FROM "Callback" c WHERE c."patientId" = f."patientId" AND c."undoneAt" IS NULL
      AND NOT EXISTS (SELECT 1 FROM "Callback" k WHERE k."patientId" = c."patientId" AND k."corrects" = c."id" AND k."undoneAt" IS NULL)
      AND c."at" >= f."openedAt" AND c."at" <= COALESCE(f."closedAt", f."endedAt", c."at") ${outcome})`
  return rowsOf(
    tx,
    'flag',
    RegistryFlag,
    sql`SELECT f."id", f."patientId", d."kind", d."placedAt", f."code", f."nature", f."urgency", f."state", f."openedAt",
          ${first(sql``)} AS "attemptAt", ${first(sql`AND c."outcome" = 'reached'`)} AS "reachedAt"
        FROM "Flag" f LEFT JOIN "Drain" d ON d."id" = f."drainId" WHERE f."patientId" IN ${listed(patients)}
        ORDER BY f."openedAt", f."id"`,
  )
}

const RegistryEvent = z.object({
  id: z.string(),
  patientId: z.string(),
  event: z.string(),
  kind: z.string().nullable(),
  placedAt: Instant.nullable(),
  at: Instant,
})
export type RegistryEvent = z.infer<typeof RegistryEvent>

/** What became of some patients outside, without what was taken back. */
export const registryEvents = (tx: Tx, patients: readonly string[]): Promise<Rows<RegistryEvent>> =>
  rowsOf(
    tx,
    'event',
    RegistryEvent,
    sql`SELECT o."id", o."patientId", o."kind" AS "event", d."kind", d."placedAt", o."at" FROM "OutsideEvent" o
        LEFT JOIN "Drain" d ON d."id" = o."drainId"
        WHERE o."patientId" IN ${listed(patients)} AND o."withdrawnAt" IS NULL ORDER BY o."at", o."id"`,
  )

const Tally = z.object({ key: z.string(), patients: Count })

const tallied = async (tx: Tx, query: ReturnType<typeof sql>): Promise<Map<string, number>> =>
  new Map((await rowsOf(tx, 'count', Tally, query)).rows.map(({ key, patients }) => [key, patients]))

/** Of how many patients each kind of drain, finding and event is. */
export async function registryCounts(
  tx: Tx,
  clinicId: string,
): Promise<Record<'kind' | 'code' | 'event', Map<string, number>>> {
  return {
    kind: await tallied(
      tx,
      sql`SELECT "kind" AS "key", COUNT(DISTINCT "patientId") AS "patients" FROM "Drain"
          WHERE "clinicId" = ${clinicId} AND "patientId" NOT IN ${withdrawn(clinicId)} GROUP BY "kind"`,
    ),
    code: await tallied(
      tx,
      sql`SELECT "code" AS "key", COUNT(DISTINCT "patientId") AS "patients" FROM "Flag"
          WHERE "clinicId" = ${clinicId} AND "patientId" NOT IN ${withdrawn(clinicId)} GROUP BY "code"`,
    ),
    event: await tallied(
      tx,
      sql`SELECT "kind" AS "key", COUNT(DISTINCT "patientId") AS "patients" FROM "OutsideEvent"
          WHERE "clinicId" = ${clinicId} AND "withdrawnAt" IS NULL AND "patientId" NOT IN ${withdrawn(clinicId)} GROUP BY "kind"`,
    ),
  }
}

const Crossed = z.object({ kind: z.string().nullable(), code: z.string(), patients: Count, flags: Count })

const EventCell = z.object({ kind: z.string().nullable(), event: z.string(), patients: Count })

/** Patients by kind of drain and event. */
export const registryEventCells = (tx: Tx, clinicId: string): Promise<Rows<z.infer<typeof EventCell>>> =>
  rowsOf(
    tx,
    'count',
    EventCell,
    sql`SELECT d."kind", o."kind" AS "event", COUNT(DISTINCT o."patientId") AS "patients" FROM "OutsideEvent" o
        LEFT JOIN "Drain" d ON d."id" = o."drainId" WHERE o."clinicId" = ${clinicId} AND o."withdrawnAt" IS NULL
          AND o."patientId" NOT IN ${withdrawn(clinicId)} GROUP BY d."kind", o."kind"`,
  )

/** Patients and flags by kind of drain and finding. */
export const registryCrossed = (tx: Tx, clinicId: string): Promise<Rows<z.infer<typeof Crossed>>> =>
  rowsOf(
    tx,
    'count',
    Crossed,
    sql`SELECT d."kind", f."code", COUNT(DISTINCT f."patientId") AS "patients", COUNT(*) AS "flags" FROM "Flag" f
        LEFT JOIN "Drain" d ON d."id" = f."drainId" WHERE f."clinicId" = ${clinicId}
          AND f."patientId" NOT IN ${withdrawn(clinicId)} GROUP BY d."kind", f."code"`,
  )
