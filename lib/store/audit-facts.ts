import { z } from 'zod'
import { AttemptOutcome } from '../domain/callback.ts'
import { FlagState, FlagStepKind } from '../domain/flag.ts'
import { EndReason } from '../domain/follow-up.ts'
import { Instant, LocalDate } from '../domain/instant.ts'
import { InquiryAbout, InquiryAnswer, OutsideEventKind } from '../domain/outside-event.ts'
import { ReadingNo, Stratum, Verdict } from '../domain/review.ts'
import { DrainKind, FindingCode, Nature, Urgency } from '../domain/words.ts'
import { OverrideLog } from './care-plans.ts'
import type { Tx } from './client.ts'
import { answerStands } from './inquiries.ts'
import { Bit, json, type Rows, rowsOf, sql } from './rows.ts'

/*
 * What an audit counts: one query per kind of row, clinic-wide, over a span of time `[from, until)`, as it was recorded by `now`.
 * No record of a patient is composed.
 */
export type Span = { clinicId: string; from: string; until: string; now: string }

const DrainInPlace = z.object({
  patientId: z.string(),
  drain: z.string(),
  kind: DrainKind,
  placedAt: Instant,
  enrolledAt: Instant,
  /** From when on the store knew of the drain: what happened before could not be seen to happen. */
  knownAt: Instant,
  followUpEndedAt: Instant.nullable(),
  followUpEnd: EndReason.nullable(),
  overrides: json(OverrideLog).nullable(),
})
export type DrainInPlace = z.infer<typeof DrainInPlace>

/** Drains of the patients in follow-up in the span, with the thresholds of their own in force at its end. */
export const drainsInPlace = (tx: Tx, { clinicId, from, until, now }: Span): Promise<Rows<DrainInPlace>> =>
  rowsOf(
    tx,
    'drain',
    DrainInPlace,
    sql`SELECT d."id", d."patientId", d."id" AS "drain", d."kind", d."placedAt", p."enrolledAt",
          MAX(p."recordedAt", d."recordedAt") AS "knownAt", p."followUpEndedAt", p."followUpEnd",
          (SELECT c."overrides" FROM "CarePlan" c WHERE c."drainId" = d."id" AND c."recordedAt" <= ${now} AND c."validFrom" < ${until}
             AND c."withdrawnAt" IS NULL ORDER BY c."validFrom" DESC, c."version" DESC LIMIT 1) AS "overrides"
        FROM "Patient" p JOIN "Drain" d ON d."patientId" = p."id"
        WHERE p."clinicId" = ${clinicId} AND p."enrolledAt" < ${until} AND d."placedAt" < ${until} AND d."recordedAt" <= ${now}
          AND (p."followUpEndedAt" IS NULL OR p."followUpEndedAt" > ${from})
        ORDER BY d."patientId", d."ordinal"`,
  )

const TubeStep = z.object({ drain: z.string(), at: Instant, isIn: Bit })
export type TubeStep = z.infer<typeof TubeStep>

/** When drains came out or were put in again, up to the end of the span; the earliest first. */
export const tubeSteps = (tx: Tx, { clinicId, until, now }: Span): Promise<Rows<TubeStep>> =>
  rowsOf(
    tx,
    'staff event',
    TubeStep,
    sql`SELECT e."id", e."drainId" AS "drain", e."at", (e."type" <> 'removed') AS "isIn"
        FROM "Patient" p JOIN "StaffEvent" e ON e."patientId" = p."id"
        WHERE p."clinicId" = ${clinicId} AND e."type" IN ('removed', 'placed', 'replaced') AND e."at" < ${until}
          AND e."drainId" IS NOT NULL AND e."withdrawnAt" IS NULL AND e."recordedAt" <= ${now} ORDER BY e."at", e."id"`,
  )

const Stay = z.object({ patientId: z.string(), at: Instant, endedAt: Instant.nullable() })
export type Stay = z.infer<typeof Stay>

/** Stays in hospital that touch the span. */
export const staysIn = (tx: Tx, { clinicId, from, until, now }: Span): Promise<Rows<Stay>> =>
  rowsOf(
    tx,
    'admission',
    Stay,
    sql`SELECT "id", "patientId", "at", "endedAt" FROM "Admission" WHERE "clinicId" = ${clinicId}
          AND "at" < ${until} AND "recordedAt" <= ${now} AND ("endedAt" IS NULL OR "endedAt" > ${from})`,
  )

const OpenedFlag = z.object({
  id: z.string(),
  patientId: z.string(),
  drain: z.string().nullable(),
  code: FindingCode,
  state: FlagState,
  urgency: Urgency.exclude(['none']),
  actBy: Instant,
  openedAt: Instant,
  closedAt: Instant.nullable(),
  endedAt: Instant.nullable(),
})
export type OpenedFlag = z.infer<typeof OpenedFlag>

/** Clinical flags that opened in the span; the urgency is the one with which they opened. The earliest first. */
export const flagsOpened = (tx: Tx, { clinicId, from, until }: Span): Promise<Rows<OpenedFlag>> =>
  rowsOf(
    tx,
    'flag',
    OpenedFlag,
    sql`SELECT f."id", f."patientId", f."drainId" AS "drain", f."code", f."state", f."actBy", f."openedAt", f."closedAt", f."endedAt",
          COALESCE((SELECT s."urgency" FROM "FlagStep" s WHERE s."flagId" = f."id" AND s."kind" = 'opened' LIMIT 1), f."urgency") AS "urgency"
        FROM "Flag" f WHERE f."clinicId" = ${clinicId} AND f."openedAt" >= ${from} AND f."openedAt" < ${until} AND f."nature" = 'clinical'
        ORDER BY f."openedAt", f."id"`,
  )

const RestlessStep = z.object({
  flagId: z.string(),
  patientId: z.string(),
  code: FindingCode,
  drain: z.string().nullable(),
  at: Instant,
  kind: FlagStepKind,
})
export type RestlessStep = z.infer<typeof RestlessStep>

/** The steps in the span of those clinical flags that, by patient, code and drain, ended at least so often: the few that may flutter. */
export const restlessIn = (
  tx: Tx,
  { clinicId, from, until }: Span,
  times: number,
): Promise<Rows<RestlessStep>> =>
  rowsOf(
    tx,
    'flag step',
    RestlessStep,
    sql`WITH w AS (SELECT s."flagId", s."at", s."kind", s."id", f."patientId", f."code", f."drainId" AS "drain"
          FROM "Flag" f JOIN "FlagStep" s ON s."flagId" = f."id"
          WHERE f."clinicId" = ${clinicId} AND f."openedAt" >= ${from} AND f."openedAt" < ${until} AND f."nature" = 'clinical'
            AND s."at" >= ${from} AND s."at" < ${until}),
        r AS (SELECT "patientId", "code", COALESCE("drain", '') AS "drain" FROM w WHERE "kind" IN ('ended', 'owed')
          GROUP BY "patientId", "code", COALESCE("drain", '') HAVING COUNT(*) >= ${times})
        SELECT w."id", w."flagId", w."patientId", w."code", w."drain", w."at", w."kind" FROM w
        JOIN r ON r."patientId" = w."patientId" AND r."code" = w."code" AND r."drain" = COALESCE(w."drain", '') ORDER BY w."at", w."id"`,
  )

const Call = z.object({ patientId: z.string(), at: Instant, outcome: AttemptOutcome, by: z.string() })
export type Call = z.infer<typeof Call>

/** Calls from the beginning of the span until now that count: neither taken back nor replaced by a correction. The earliest first. */
export const callsSince = (tx: Tx, { clinicId, from, now }: Span): Promise<Rows<Call>> =>
  rowsOf(
    tx,
    'callback',
    Call,
    sql`SELECT c."id", c."patientId", c."at", c."outcome", c."recordedBy" AS "by" FROM "Callback" c
        WHERE c."clinicId" = ${clinicId} AND c."at" >= ${from} AND c."at" <= ${now} AND c."undoneAt" IS NULL
          AND NOT EXISTS (SELECT 1 FROM "Callback" k WHERE k."patientId" = c."patientId" AND k."corrects" = c."id" AND k."undoneAt" IS NULL)
        ORDER BY c."at", c."id"`,
  )

const Event = z.object({
  id: z.string(),
  patientId: z.string(),
  drain: z.string().nullable(),
  kind: OutsideEventKind,
  at: Instant,
  heardAt: Instant.nullable(),
})
export type Event = z.infer<typeof Event>

/** What befell the patients outside in the span, with when they had last been heard. The earliest first. */
export const eventsIn = (tx: Tx, { clinicId, from, until, now }: Span): Promise<Rows<Event>> =>
  rowsOf(
    tx,
    'outside event',
    Event,
    sql`SELECT e."id", e."patientId", e."drainId" AS "drain", e."kind", e."at",
          (SELECT MAX(r."receivedAt") FROM "Report" r WHERE r."patientId" = e."patientId" AND r."receivedAt" <= e."at"
            AND r."movedAt" IS NULL) AS "heardAt"
        FROM "OutsideEvent" e WHERE e."clinicId" = ${clinicId} AND e."at" >= ${from} AND e."at" < ${until} AND e."withdrawnAt" IS NULL
          AND e."recordedAt" <= ${now} ORDER BY e."at", e."id"`,
  )

const Death = z.object({ patientId: z.string(), at: Instant })
export type Death = z.infer<typeof Death>

/** Who had died by the end of the span, as far as it was told as an outside event. */
export const deathsBy = (tx: Tx, { clinicId, until, now }: Span): Promise<Rows<Death>> =>
  rowsOf(
    tx,
    'outside event',
    Death,
    sql`SELECT "id", "patientId", MIN("at") AS "at" FROM "OutsideEvent" WHERE "clinicId" = ${clinicId} AND "kind" = 'death'
          AND "at" < ${until} AND "withdrawnAt" IS NULL AND "recordedAt" <= ${now} GROUP BY "patientId"`,
  )

const Asked = z.object({
  patientId: z.string(),
  about: InquiryAbout,
  answer: InquiryAnswer,
  recordedAt: Instant,
})
export type Asked = z.infer<typeof Asked>

/** What was answered about what became of each patient and still stands, the newest answer last. */
export const answersOf = (tx: Tx, { clinicId, now }: Span): Promise<Rows<Asked>> =>
  rowsOf(
    tx,
    'inquiry answer',
    Asked,
    sql`SELECT a."id", a."patientId", a."about", a."answer", a."recordedAt" FROM "InquiryAnswer" a WHERE a."clinicId" = ${clinicId}
          AND a."recordedAt" <= ${now} AND ${answerStands} ORDER BY a."recordedAt", a."id"`,
  )

const ReadItem = z.object({
  item: z.string(),
  week: LocalDate,
  kind: z.enum(['flag', 'day']),
  patientId: z.string(),
  code: FindingCode.nullable(),
  nature: Nature.nullable(),
  stratum: Stratum,
  probability: z.number().gt(0).max(1),
  twice: Bit,
  reading: z.coerce.number().pipe(ReadingNo),
  verdict: Verdict,
  isOpened: Bit,
})
export type ReadItem = z.infer<typeof ReadItem>

/** The verdicts on what was drawn for the weeks that begin in the days `[from, until)`, the newest of each item and reading last. */
export const verdictsOf = (
  tx: Tx,
  { clinicId, now }: Span,
  from: LocalDate,
  until: LocalDate,
): Promise<Rows<ReadItem>> =>
  rowsOf(
    tx,
    'review',
    ReadItem,
    sql`SELECT r."id", i."id" AS "item", i."week", i."kind", i."patientId", f."code", f."nature", i."stratum", i."probability", i."twice", r."reading", r."verdict", r."isOpened"
        FROM "ReviewItem" i JOIN "Review" r ON r."itemId" = i."id" LEFT JOIN "Flag" f ON f."id" = i."flagId"
        WHERE i."clinicId" = ${clinicId} AND i."week" >= ${from} AND i."week" < ${until} AND r."recordedAt" <= ${now}
        ORDER BY r."recordedAt", r.rowid`,
  )
