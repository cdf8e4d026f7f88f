import { z } from 'zod'
import { Finding } from '../domain/assessment.ts'
import { type Flag, FlagState, type FlagStep, FlagStepKind } from '../domain/flag.ts'
import { Instant } from '../domain/instant.ts'
import { FindingCode, Nature, Urgency } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { insert, put } from './insert.ts'
import { Bit, json, newId, type Rows, rowsOf, sql } from './rows.ts'

/** A flag as it is kept: with what its life needs to know and no screen shows. */
export type KeptFlag = Omit<Flag, 'flutters'> & {
  /** Of a closed flag: whether its finding has held without a break since. */
  holdsStill: boolean
  endedAt: string | null
}

const StoredFlag = z
  .object({
    id: z.string(),
    patientId: z.string(),
    drainId: z.string().nullable(),
    code: FindingCode,
    nature: Nature,
    state: FlagState,
    urgency: Urgency.exclude(['none']),
    since: Instant,
    actBy: Instant,
    openedAt: Instant,
    finding: json(Finding),
    closedAt: Instant.nullable(),
    closedBy: z.string().nullable(),
    closedFinding: json(Finding).nullable(),
    holdsStill: Bit,
    endedAt: Instant.nullable(),
    lookAgainAt: Instant.nullable(),
    spokenAt: Instant.nullable(),
    ruleSet: z.string().nullable(),
  })
  .transform(({ drainId, ...rest }): KeptFlag => ({ ...rest, drain: drainId }))

const shape = StoredFlag as unknown as z.ZodType<KeptFlag>

/** Without what is not for a screen. */
export function shown({ holdsStill: _holds, endedAt: _ended, ...flag }: KeptFlag): Flag {
  return flag
}

/** The flags whose life can still move: those that stand, and the closed ones that still hold or wait for their time. */
export const livingFlagsOf = (tx: Tx, patientId: string): Promise<Rows<KeptFlag>> =>
  rowsOf(
    tx,
    'flag',
    shape,
    sql`SELECT * FROM "Flag" WHERE "patientId" = ${patientId} AND "state" IN ('open', 'owed', 'closed')
        AND ("state" <> 'closed' OR "holdsStill" OR "lookAgainAt" IS NOT NULL) ORDER BY "openedAt", "id"`,
  )

/** All flags of a patient that opened after an instant, and those that stand. The latest first. */
export const flagsSince = (tx: Tx, patientId: string, from: string): Promise<Rows<KeptFlag>> =>
  rowsOf(
    tx,
    'flag',
    shape,
    sql`SELECT * FROM "Flag" WHERE "patientId" = ${patientId} AND ("openedAt" > ${from} OR "state" IN ('open', 'owed'))
        ORDER BY "openedAt" DESC, "id"`,
  )

/** Flags of a patient by their ids, whatever has become of them. */
export const flagsByIds = (tx: Tx, patientId: string, ids: readonly string[]): Promise<Rows<KeptFlag>> =>
  ids.length === 0
    ? Promise.resolve({ rows: [], unreadable: [] })
    : rowsOf(
        tx,
        'flag',
        shape,
        sql`SELECT * FROM "Flag" WHERE "id" IN (${Prisma.join([...ids])}) AND "patientId" = ${patientId}`,
      )

/** The flags that a call at that moment moved: of whom it was then that somebody spoke to the patient. */
export const flagsSpokenAt = (tx: Tx, patientId: string, at: string): Promise<Rows<KeptFlag>> =>
  rowsOf(
    tx,
    'flag',
    shape,
    sql`SELECT * FROM "Flag" WHERE "patientId" = ${patientId} AND "openedAt" <= ${at} AND "spokenAt" = ${at}`,
  )

/** Every flag of a clinic that stands; once follow-up has ended, the clinical ones that moved since. */
export const standingFlagsOf = (tx: Tx, clinicId: string): Promise<Rows<KeptFlag>> =>
  rowsOf(
    tx,
    'flag',
    shape,
    sql`SELECT f.* FROM "Flag" f JOIN "Patient" p ON p."id" = f."patientId"
        WHERE f."clinicId" = ${clinicId} AND f."state" IN ('open', 'owed')
          AND (p."followUpEndedAt" IS NULL OR (f."nature" = 'clinical' AND f."changedAt" >= p."followUpEndedAt"))`,
  )

/** Stores flags as they now are, new or moved. */
export async function saveFlags(
  tx: Tx,
  clinicId: string,
  flags: readonly KeptFlag[],
  changedAt: string,
): Promise<void> {
  for (const flag of flags) {
    const { id, drain, finding, closedFinding, ...rest } = flag
    const row = {
      id,
      ...rest,
      clinicId,
      drainId: drain,
      finding: JSON.stringify(finding),
      closedFinding: closedFinding ? JSON.stringify(closedFinding) : null,
      changedAt,
    } satisfies Prisma.FlagUncheckedCreateInput
    await put(tx, 'Flag', 'id', row)
  }
}

const StoredStep = z.object({
  flagId: z.string(),
  at: Instant,
  kind: FlagStepKind,
  by: z.string().nullable(),
  why: z.string(),
  urgency: Urgency.exclude(['none']),
})

/** The steps of a patient's flags since an instant, the earliest first. */
export const stepsSince = (tx: Tx, patientId: string, from: string): Promise<Rows<FlagStep>> =>
  rowsOf(
    tx,
    'flag step',
    StoredStep,
    sql`SELECT * FROM "FlagStep" WHERE "patientId" = ${patientId} AND "at" > ${from} ORDER BY "at", "id"`,
  )

export async function addSteps(
  tx: Tx,
  clinicId: string,
  patientId: string,
  steps: readonly FlagStep[],
): Promise<void> {
  const rows = steps.map((step) => ({ id: newId(), clinicId, patientId, ...step }))
  await insert(tx, 'FlagStep', rows satisfies Prisma.FlagStepUncheckedCreateInput[])
}

const RestlessStep = StoredStep.pick({ flagId: true, at: true, kind: true }).extend({
  patientId: z.string(),
  code: FindingCode,
  drain: z.string().nullable(),
})

/**
 * The steps since an instant of those flags of a clinic that stand and, by code and drain, have ended at least so often
 * since: of the few that may flutter.
 */
export const restlessSteps = (
  tx: Tx,
  clinicId: string,
  from: string,
  times: number,
): Promise<Rows<z.infer<typeof RestlessStep>>> =>
  rowsOf(
    tx,
    'flag step',
    RestlessStep,
    sql`WITH w AS (SELECT s."patientId", f."code", COALESCE(f."drainId", '') AS "drain"
          FROM (SELECT DISTINCT "patientId" FROM "Flag" WHERE "clinicId" = ${clinicId} AND "state" IN ('open', 'owed')) w
          JOIN "FlagStep" s ON s."patientId" = w."patientId" JOIN "Flag" f ON f."id" = s."flagId"
          WHERE s."at" > ${from} AND s."kind" IN ('ended', 'owed')
          GROUP BY s."patientId", f."code", COALESCE(f."drainId", '') HAVING COUNT(*) >= ${times})
        SELECT s."id", s."flagId", s."at", s."kind", s."patientId", f."code", f."drainId" AS "drain" FROM w
        JOIN "FlagStep" s ON s."patientId" = w."patientId" JOIN "Flag" f ON f."id" = s."flagId"
        WHERE s."at" > ${from} AND f."code" = w."code" AND COALESCE(f."drainId", '') = w."drain" ORDER BY s."at", s."id"`,
  )
