import { z } from 'zod'
import { EndReason } from '../domain/follow-up.ts'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { newId, type Rows, rowsOf, sql } from './rows.ts'

export const FollowUpStep = z.object({
  recordedAt: Instant,
  recordedBy: z.string(),
  /** A death is undone in two steps, by two people; what else ended it, in one. */
  step: z.enum(['ended', 'undo-asked', 'resumed']),
  reason: EndReason.nullable(),
  why: z.string().nullable(),
})
export type FollowUpStep = z.infer<typeof FollowUpStep>

/** How follow-up ended and went on, the latest first. */
export const followUpStepsOf = (tx: Tx, patientId: string): Promise<Rows<FollowUpStep>> =>
  rowsOf(
    tx,
    'follow-up step',
    FollowUpStep,
    sql`SELECT "id", "recordedAt", "recordedBy", "step", "reason", "why" FROM "FollowUpStep"
        WHERE "patientId" = ${patientId}
        ORDER BY "recordedAt" DESC, CASE "step" WHEN 'ended' THEN 0 WHEN 'undo-asked' THEN 1 ELSE 2 END DESC, "id"`,
  )

/** The end that holds now and who asked to undo it, from the steps with the latest first; null where none holds. */
export function endThatHolds(
  steps: readonly FollowUpStep[],
): { end: FollowUpStep; asked: FollowUpStep | null } | null {
  const resumed = steps.findIndex(({ step }) => step === 'resumed')
  const since = resumed === -1 ? steps : steps.slice(0, resumed)
  const end = since.find(({ step }) => step === 'ended')
  return end ? { end, asked: since.find(({ step }) => step === 'undo-asked') ?? null } : null
}

export async function addFollowUpStep(
  tx: Tx,
  { step, reason, why }: Pick<FollowUpStep, 'step' | 'reason' | 'why'>,
  recorded: Recorded,
): Promise<void> {
  await tx.followUpStep.create({ data: { id: newId(), step, reason, why, ...recorded } })
}

/**
 * Takes a patient out of follow-up: the row says so, nothing is due any more, and no reminder that waits will go
 * out. What flags stand stays as it is in the record.
 */
export async function endedAt(tx: Tx, patientId: string, at: string, reason: EndReason): Promise<void> {
  await tx.patient.update({
    where: { id: patientId },
    data: { followUpEndedAt: at, followUpEnd: reason },
  })
  await tx.patientState.updateMany({
    where: { patientId },
    data: { nextCheckAt: null, nextReminderAt: null },
  })
  await cancelReminders(tx, patientId, at)
}

/** Takes a patient back; what is due is worked out anew by the assessment that follows. */
export async function backInFollowUp(tx: Tx, patientId: string): Promise<void> {
  await tx.patient.update({
    where: { id: patientId },
    data: { followUpEndedAt: null, followUpEnd: null },
  })
}

/** Gives up the reminders of a patient that have not gone out, with what they say. */
async function cancelReminders(tx: Tx, patientId: string, at: string): Promise<void> {
  const given = await tx.reminder.findMany({ where: { patientId }, select: { letterId: true } })
  await tx.outbox.updateMany({
    where: { patientId, sentAt: null, givenUpAt: null, id: { in: given.map(({ letterId }) => letterId) } },
    data: { givenUpAt: at, body: '{}', lastError: 'follow-up has ended' },
  })
}

/** Whether a patient is in follow-up: asked again at the moment of sending anything to them. */
export async function isInFollowUp(tx: Tx, patientId: string): Promise<boolean> {
  const found = await tx.patient.findUnique({ where: { id: patientId }, select: { followUpEndedAt: true } })
  return found !== null && found.followUpEndedAt === null
}
