import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { type Visit, VisitKind, VisitState } from '../domain/visit.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { newId, type Rows, rowsOf, sql } from './rows.ts'

export const VisitStep = z.object({
  visitId: z.string(),
  drainId: z.string(),
  kind: VisitKind,
  state: VisitState,
  bookedFor: Instant.nullable(),
  recordedAt: Instant,
  recordedBy: z.string(),
  why: z.string().nullable(),
})
export type VisitStep = z.infer<typeof VisitStep>

/** Every step that was recorded by `until`, the earliest first. Of one instant's steps, the one that goes further is the later. */
export const visitStepsOf = (tx: Tx, patientId: string, until: string): Promise<Rows<VisitStep>> =>
  rowsOf(
    tx,
    'visit',
    VisitStep,
    sql`SELECT s."id", s."visitId", v."drainId", v."kind", s."state", s."bookedFor", s."recordedAt", s."recordedBy", s."why"
        FROM "VisitStep" s JOIN "Visit" v ON v."id" = s."visitId"
        WHERE s."patientId" = ${patientId} AND s."recordedAt" <= ${until}
        ORDER BY s."recordedAt", CASE s."state" WHEN 'requested' THEN 0 WHEN 'booked' THEN 1 ELSE 2 END, s."id"`,
  )

/** The latest step of each visit: how the visits stood after these steps. */
export function latestSteps(steps: readonly VisitStep[]): VisitStep[] {
  return [...new Map(steps.map((step) => [step.visitId, step])).values()]
}

export const isOpen = ({ state }: Pick<Visit, 'state'>): boolean =>
  state === 'requested' || state === 'booked'

/** When a drain's visit of a kind is booked for, by the steps: of several the one that was booked last. */
export const bookedFor = (steps: readonly VisitStep[], drain: string, kind: VisitKind): Instant | null =>
  latestSteps(steps)
    .filter((step) => step.drainId === drain && step.kind === kind && step.state === 'booked')
    .toSorted((a, b) => Date.parse(a.recordedAt) - Date.parse(b.recordedAt))
    .at(-1)?.bookedFor ?? null

/**
 * Adds a step, and the visit with its first one. Steps are only ever added; the row of the visit says what the
 * newest step says, and the past is read from the steps alone.
 */
export async function addVisitStep(
  tx: Tx,
  visit: Visit,
  why: string | null,
  recorded: Recorded,
): Promise<void> {
  const { id, drain, kind, state, bookedFor } = visit
  await tx.visit.upsert({
    where: { id },
    create: { id, drainId: drain, kind, state, bookedFor, ...recorded },
    update: { state, bookedFor },
  })
  await tx.visitStep.create({
    data: { id: newId(), visitId: id, state, bookedFor, why, ...recorded },
  })
}
