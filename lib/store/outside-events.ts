import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from '../domain/instant.ts'
import { type OutsideEvent, OutsideEventKind } from '../domain/outside-event.ts'
import { DrainKind, FindingCode } from '../domain/words.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { insertMany } from './insert-many.ts'
import { type Rows, rowOf, rowsOf, sql, stored } from './rows.ts'

const columns = {
  id: z.string(),
  patientId: z.string(),
  drainId: z.string().nullable(),
  kind: OutsideEventKind,
  at: Instant,
  source: z.string(),
  note: z.string().nullable(),
  recordedAt: Instant,
  recordedBy: z.string(),
  withdrawnAt: Instant.nullable(),
  withdrawnBy: z.string().nullable(),
  withdrawnWhy: z.string().nullish(),
}
type Stored = z.infer<z.ZodObject<typeof columns>>
const plain = ({ drainId, recordedBy, withdrawnWhy, ...rest }: Stored): OutsideEvent => ({
  ...rest,
  drain: drainId,
  by: recordedBy,
  withdrawnWhy: withdrawnWhy ?? null,
})
const StoredEvent = z.object(columns).transform(plain)
const shape = StoredEvent as unknown as z.ZodType<OutsideEvent>

/** What became of a patient, as recorded and withdrawn; the earliest first. */
export const outsideEventsOf = (tx: Tx, patientId: string): Promise<Rows<OutsideEvent>> =>
  rowsOf(
    tx,
    'outside event',
    shape,
    sql`SELECT * FROM "OutsideEvent" WHERE "patientId" = ${patientId} ORDER BY "at", "id"`,
  )

export const outsideEventById = (tx: Tx, patientId: string, id: string): Promise<OutsideEvent | null> =>
  rowOf(
    tx,
    'outside event',
    shape,
    sql`SELECT * FROM "OutsideEvent" WHERE "id" = ${id} AND "patientId" = ${patientId}`,
  )

const person = {
  heardAt: Instant.nullable(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  timeZone: TimeZone,
  label: z.string().nullable(),
}
export type EventOfPerson = {
  event: OutsideEvent
  /** When the patient had last been heard before it. */
  heardAt: string | null
  name: string
  birthDate: string
  recordNumber: string
  timeZone: string
  label: string | null
}
const StoredOfPerson = z.object({ ...columns, ...person }).transform(
  ({ heardAt, name, birthDate, recordNumber, timeZone, label, ...event }): EventOfPerson => ({
    event: plain(event),
    heardAt,
    name,
    birthDate,
    recordNumber,
    timeZone,
    label,
  }),
)

/** The events of a clinic that were recorded last, withdrawn ones too. */
export const latestOutsideEvents = (tx: Tx, clinicId: string, most: number): Promise<Rows<EventOfPerson>> =>
  rowsOf(
    tx,
    'outside event',
    StoredOfPerson as unknown as z.ZodType<EventOfPerson>,
    sql`SELECT e.*, p."name", p."birthDate", p."recordNumber", p."timeZone", d."label",
          (SELECT MAX(r."receivedAt") FROM "Report" r WHERE r."patientId" = e."patientId" AND r."receivedAt" <= e."at") AS "heardAt"
        FROM "OutsideEvent" e
        JOIN "Patient" p ON p."id" = e."patientId" LEFT JOIN "Drain" d ON d."id" = e."drainId"
        WHERE e."clinicId" = ${clinicId} ORDER BY e."recordedAt" DESC, e."at" DESC, e."id" LIMIT ${most}`,
  )

/** Every event of a clinic that counts, that happened in a span of time. */
export const outsideEventsIn = (
  tx: Tx,
  clinicId: string,
  from: string,
  until: string,
): Promise<Rows<OutsideEvent>> =>
  rowsOf(
    tx,
    'outside event',
    shape,
    sql`SELECT * FROM "OutsideEvent" WHERE "clinicId" = ${clinicId} AND "at" >= ${from} AND "at" < ${until}
        AND "withdrawnAt" IS NULL ORDER BY "at", "id"`,
  )

export type NewEvent = {
  id: string
  clinicId: string
  patientId: string
  drainId: string | null
  kind: OutsideEventKind
  at: string
  source: string
  note: string | null
  recordedAt: string
  recordedBy: string
}

export async function addOutsideEvents(tx: Tx, events: readonly NewEvent[]): Promise<void> {
  const rows = events.map((event) => ({ ...event, at: stored(event.at) }))
  await insertMany(tx, 'OutsideEvent', rows satisfies Prisma.OutsideEventUncheckedCreateInput[])
}

/** What makes an event the same one, said twice. */
export const sameEvent = ({ patientId, drainId, kind, at }: Omit<NewEvent, 'id' | 'clinicId'> | KnownEvent) =>
  `${patientId} ${drainId ?? ''} ${kind} ${stored(at)}`
type KnownEvent = { patientId: string; drainId: string | null; kind: string; at: string }

/** Marks of the events of some patients that count, to tell what is said again. */
export async function knownEvents(tx: Tx, patientIds: readonly string[]): Promise<Set<string>> {
  const rows = await tx.$queryRaw<KnownEvent[]>(
    sql`SELECT "patientId", "drainId", "kind", "at" FROM "OutsideEvent" WHERE "withdrawnAt" IS NULL
        AND "patientId" IN (SELECT value FROM json_each(${JSON.stringify(patientIds)}))`,
  )
  return new Set(rows.map(sameEvent))
}

/** An event no longer counts, with who says so and why. Says whether it counted until now. */
export async function withdrawEvent(
  tx: Tx,
  id: string,
  at: string,
  by: string,
  why: string,
): Promise<boolean> {
  const { count } = await tx.outsideEvent.updateMany({
    where: { id, withdrawnAt: null },
    data: { withdrawnAt: at, withdrawnBy: by, withdrawnWhy: why },
  })
  return count === 1
}

const EventPatient = z.object({
  id: z.string(),
  recordNumber: z.string(),
  timeZone: TimeZone,
  enrolledAt: Instant,
})
export type EventPatient = z.infer<typeof EventPatient>

/** The patients of a clinic that have one of these record numbers. */
export const eventPatients = (
  tx: Tx,
  clinicId: string,
  numbers: readonly string[],
): Promise<Rows<EventPatient>> =>
  rowsOf(
    tx,
    'patient',
    EventPatient,
    sql`SELECT "id", "recordNumber", "timeZone", "enrolledAt" FROM "Patient" WHERE "clinicId" = ${clinicId}
        AND "recordNumber" IN (SELECT value FROM json_each(${JSON.stringify(numbers)}))`,
  )

const EventFlag = z.object({
  id: z.string(),
  patientId: z.string(),
  drain: z.string().nullable(),
  code: FindingCode,
  openedAt: Instant,
})

/** The flags of some patients that opened after an instant, for what they had found. */
export const flagsOfPatients = (
  tx: Tx,
  patientIds: readonly string[],
  from: string,
): Promise<Rows<z.infer<typeof EventFlag>>> =>
  rowsOf(
    tx,
    'flag',
    EventFlag,
    sql`SELECT "id", "patientId", "drainId" AS "drain", "code", "openedAt" FROM "Flag"
        WHERE "patientId" IN (SELECT value FROM json_each(${JSON.stringify(patientIds)})) AND "openedAt" >= ${from}`,
  )

const EventDrain = z.object({
  id: z.string(),
  patientId: z.string(),
  label: z.string(),
  kind: DrainKind,
  placedAt: Instant,
})

/** The drains of some patients, each patient's in the order of enrolment. */
export const drainsForEvents = (
  tx: Tx,
  patientIds: readonly string[],
): Promise<Rows<z.infer<typeof EventDrain>>> =>
  rowsOf(
    tx,
    'drain',
    EventDrain,
    sql`SELECT "id", "patientId", "label", "kind", "placedAt" FROM "Drain"
        WHERE "patientId" IN (SELECT value FROM json_each(${JSON.stringify(patientIds)}))
        ORDER BY "patientId", "ordinal", "id"`,
  )
