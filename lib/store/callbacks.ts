import { z } from 'zod'
import {
  Agreed,
  AskedAnswer,
  AttemptOutcome,
  type Callback,
  Direction,
  SpokenTo,
} from '../domain/callback.ts'
import { Flag } from '../domain/flag.ts'
import { Instant } from '../domain/instant.ts'
import { Profile } from '../domain/profile.ts'
import { Hold } from '../domain/worklist.ts'
import type { Tx } from './client.ts'
import type { KeptFlag } from './flags.ts'
import { CallState } from './patient-states.ts'
import { Bit, json, type Rows, rowOf, rowsOf, sql } from './rows.ts'

const StoredCallback = z.object({
  id: z.string(),
  at: Instant,
  recordedAt: Instant,
  by: z.string(),
  byId: z.string(),
  direction: Direction,
  contact: z.string().nullable(),
  outcome: AttemptOutcome,
  spokenTo: SpokenTo.nullable(),
  interpreter: Bit,
  agreed: json(z.array(Agreed)),
  teachBack: Bit.nullable(),
  closes: json(z.array(z.string())),
  lookAgainAt: Instant.nullable(),
  note: z.string(),
  asked: json(z.array(AskedAnswer))
    .nullable()
    .transform((asked) => asked ?? []),
  corrects: z.string().nullable(),
  why: z.string().nullable(),
  correctedBy: z.string().nullable(),
  undoneAt: Instant.nullable(),
  undoneBy: z.string().nullable(),
})

const columns = sql`c."id", c."at", c."recordedAt", COALESCE(s."name", c."recordedBy") AS "by", c."recordedBy" AS "byId",
    c."direction", c."contact", c."outcome", c."spokenTo", c."interpreter", c."agreed", c."teachBack", c."closes",
    c."lookAgainAt", c."note", c."asked", c."corrects", c."why", c."undoneAt", COALESCE(u."name", c."undoneBy") AS "undoneBy",
    (SELECT k."id" FROM "Callback" k WHERE k."corrects" = c."id") AS "correctedBy"
  FROM "Callback" c LEFT JOIN "Staff" s ON s."id" = c."recordedBy" LEFT JOIN "Staff" u ON u."id" = c."undoneBy"`

/** The latest calls to a patient, the latest first, with those that no longer count. `by` is the caller's name where it is known. */
export const callbacksOf = (tx: Tx, patientId: string, most: number): Promise<Rows<Callback>> =>
  rowsOf(
    tx,
    'callback',
    StoredCallback,
    sql`SELECT ${columns} WHERE c."patientId" = ${patientId}
        ORDER BY c."at" DESC, c."recordedAt" DESC, c."id" LIMIT ${most}`,
  )

export const callbackById = (tx: Tx, patientId: string, id: string): Promise<Callback | null> =>
  rowOf(
    tx,
    'callback',
    StoredCallback,
    sql`SELECT ${columns} WHERE c."id" = ${id} AND c."patientId" = ${patientId}`,
  )

type New = Omit<Callback, 'by' | 'byId' | 'recordedAt' | 'correctedBy' | 'undoneAt' | 'undoneBy'>

export async function addCallback(
  tx: Tx,
  callback: New,
  recorded: { clinicId: string; patientId: string; recordedAt: string; recordedBy: string },
): Promise<void> {
  await tx.callback.create({
    data: {
      ...callback,
      agreed: JSON.stringify(callback.agreed),
      closes: JSON.stringify(callback.closes),
      asked: callback.asked.length > 0 ? JSON.stringify(callback.asked) : null,
      ...recorded,
    },
  })
}

const FailedCall = z.object({
  patientId: z.string(),
  at: Instant,
  contact: z.string().nullable(),
  outcome: AttemptOutcome,
  profile: json(Profile).nullable(),
})

/** Attempts of a clinic since an instant that reached nobody and count, each with whom else that patient lets us call. */
export const failedCallsSince = (
  tx: Tx,
  clinicId: string,
  from: string,
): Promise<Rows<z.infer<typeof FailedCall>>> =>
  rowsOf(
    tx,
    'callback',
    FailedCall,
    sql`SELECT c."id", c."patientId", c."at", c."contact", c."outcome", p."profile"
        FROM "Callback" c JOIN "Patient" p ON p."id" = c."patientId"
        WHERE c."clinicId" = ${clinicId} AND c."at" >= ${from} AND c."outcome" <> 'reached' AND c."undoneAt" IS NULL
          AND NOT EXISTS (SELECT 1 FROM "Callback" k WHERE k."corrects" = c."id")`,
  )

/** What a call changed, as it was before it; `after` are marks of the flags as it left them. */
export type BeforeCall = {
  flags: { before: KeptFlag; after: string }[]
  calls: { before: CallState; after: CallState }
  hold: Hold | null
}

const State = z.object({ ...CallState.shape, attempts: z.array(Instant) })
const BeforeCall = z.object({
  flags: z.array(
    z.object({
      before: Flag.extend({ holdsStill: z.boolean(), endedAt: Instant.nullable() }),
      after: z.string(),
    }),
  ),
  calls: z.object({ before: State, after: State }),
  hold: Hold.nullable(),
})

/** Keeps what a call changed, and drops the same of the calls before it: only the latest can be taken back. */
export async function keepBefore(
  tx: Tx,
  patientId: string,
  callbackId: string,
  before: BeforeCall,
): Promise<void> {
  await tx.callback.updateMany({
    where: { patientId, before: { not: null } },
    data: { before: null },
  })
  await tx.callback.update({ where: { id: callbackId }, data: { before: JSON.stringify(before) } })
}

/** Null where a later call has come, or nothing was kept. */
export async function beforeOf(tx: Tx, callbackId: string): Promise<BeforeCall | null> {
  const row = await rowOf(
    tx,
    'callback',
    z.object({ before: json(BeforeCall).nullable() }),
    sql`SELECT "id", "before" FROM "Callback" WHERE "id" = ${callbackId}`,
  )
  return row?.before ?? null
}

/** Takes a call back. Says whether this was what took it back. */
export async function markUndone(tx: Tx, id: string, at: string, by: string): Promise<boolean> {
  const { count } = await tx.callback.updateMany({
    where: { id, undoneAt: null },
    data: { undoneAt: at, undoneBy: by, before: null },
  })
  return count === 1
}

/** The staff events that came with a call no longer count from now on. */
export async function withdrawEvents(tx: Tx, callbackIds: readonly string[], at: string): Promise<void> {
  await tx.staffEvent.updateMany({
    where: { callbackId: { in: [...callbackIds] }, withdrawnAt: null },
    data: { withdrawnAt: at },
  })
}
