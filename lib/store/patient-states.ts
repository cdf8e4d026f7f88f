import { z } from 'zod'
import { Assessment } from '../domain/assessment.ts'
import { Instant } from '../domain/instant.ts'
import type { Reporter } from '../domain/submission.ts'
import type { RowDrain } from '../domain/worklist.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { put } from './insert.ts'
import { json, rowOf, rowsOf, sql, stored, type Unreadable } from './rows.ts'

/** What the rules last said of a patient, and what a worklist row shows besides its flags. */
export type PatientState = {
  assessment: Assessment
  drains: RowDrain[]
  nextCheckAt: string | null
  lastHeardAt: string | null
  lastHeardFrom: Reporter | null
  unreadable: Unreadable[]
}

/** What calls write, and a word that came too late. */
export const CallState = z.object({
  lookAgainAt: Instant.nullable(),
  /** Why, where it was no call that promised it: such a promise also holds for a patient whose follow-up has ended. */
  lookAgainWhy: z.string().nullable(),
  lastSpokenAt: Instant.nullable(),
  attempts: json(z.array(Instant)),
})
export type CallState = z.infer<typeof CallState>

export const callStateOf = (tx: Tx, patientId: string): Promise<CallState | null> =>
  rowOf(
    tx,
    'patient state',
    CallState,
    sql`SELECT "lookAgainAt", "lookAgainWhy", "lastSpokenAt", "attempts" FROM "PatientState" WHERE "patientId" = ${patientId}`,
  )

export async function saveCallState(tx: Tx, patientId: string, state: CallState): Promise<void> {
  await tx.patientState.update({
    where: { patientId },
    data: { ...state, attempts: JSON.stringify(state.attempts) },
  })
}

/** Asks that a patient be looked at again, and says why. */
export async function saveLookAgain(tx: Tx, patientId: string, at: string, why: string): Promise<void> {
  await tx.patientState.update({ where: { patientId }, data: { lookAgainAt: at, lookAgainWhy: why } })
}

/** Notes that a member of staff opened the patient's page. */
export async function saveRead(tx: Tx, patientId: string, at: string): Promise<void> {
  await tx.patientState.updateMany({ where: { patientId }, data: { readAt: at } })
}

const Kept = z.object({ assessment: json(Assessment) })

/** What the rules last said of a patient; null where they said nothing yet, or in a form that is no longer read. */
export async function keptAssessment(tx: Tx, patientId: string): Promise<Assessment | null> {
  const query = sql`SELECT "patientId", "assessment" FROM "PatientState" WHERE "patientId" = ${patientId}`
  return (await rowsOf(tx, 'patient state', Kept, query)).rows[0]?.assessment ?? null
}

/** Stores what the rules say now; what callbacks wrote stays. */
export async function saveState(
  tx: Tx,
  clinicId: string,
  patientId: string,
  state: PatientState,
): Promise<void> {
  const { assessment, drains, unreadable, ...rest } = state
  const row = {
    ...rest,
    patientId,
    clinicId,
    assessedAt: stored(assessment.asOf),
    ruleSet: assessment.ruleSet,
    urgency: assessment.urgency,
    assessment: JSON.stringify(assessment),
    drains: JSON.stringify(drains),
    unreadable: JSON.stringify(unreadable),
    troubled: unreadable.length > 0,
    failures: 0,
    lastError: null,
  } satisfies Prisma.PatientStateUncheckedCreateInput
  await put(tx, 'PatientState', 'patientId', row)
}

/** Patients whose next check has come, the longest waiting first. */
export async function duePatients(
  tx: Tx,
  now: Date,
  most: number,
): Promise<{ patientId: string; clinicId: string; nextCheckAt: string }[]> {
  return tx.$queryRaw`SELECT "patientId", "clinicId", "nextCheckAt" FROM "PatientState" WHERE "nextCheckAt" <= ${stored(now)}
      ORDER BY "nextCheckAt" LIMIT ${most}`
}

/** Notes that a patient could not be assessed, and when to try again: later with each failure. */
export async function postpone(tx: Tx, patientId: string, now: Date, error: string): Promise<void> {
  const state = await tx.patientState.findUnique({ where: { patientId }, select: { failures: true } })
  const failures = (state?.failures ?? 0) + 1
  const waitSeconds = Math.min(3600, 10 * 2 ** Math.min(failures, 10))
  await tx.patientState.update({
    where: { patientId },
    data: {
      failures,
      lastError: error.slice(0, 500),
      troubled: true,
      nextCheckAt: stored(new Date(now.getTime() + waitSeconds * 1000)),
    },
  })
}

/** Patients of whom something could not be read or assessed. */
export const troubledCount = (tx: Tx): Promise<number> => tx.patientState.count({ where: { troubled: true } })
