import type { Escalation } from '../domain/escalation.ts'
import type { OnCallState } from '../domain/on-call-state.ts'
import { onCallState } from '../domain/turn.ts'
import {
  escalationsOf,
  type KeptEscalation,
  type KeptStep,
  standingEscalations,
  standingSteps,
  stepsOfPatient,
} from '../store/escalations.ts'
import type { Tx } from '../store/index.ts'

/** The escalations that stand in a clinic, each with how it stands with the person on call. */
export type Standing = { escalation: KeptEscalation; state: OnCallState }

export async function standingOf(tx: Tx, clinicId: string): Promise<Standing[]> {
  const { rows } = await standingEscalations(tx, clinicId)
  if (rows.length === 0) return []
  const steps = await standingSteps(tx, clinicId)
  return rows.map((escalation) => ({
    escalation,
    state: onCallState(escalation, steps.get(escalation.id) ?? []),
  }))
}

/** The escalations of a patient as their page lists them, the latest first. */
export async function pageEscalations(tx: Tx, patientId: string, from: string): Promise<Escalation[]> {
  const { rows } = await escalationsOf(tx, patientId, from)
  const steps = await stepsOfPatient(tx, patientId, from)
  return rows.map(({ id, about, urgency, recordedAt, endedAt }) => ({
    ...{ id, about, urgency, openedAt: recordedAt, endedAt },
    steps: (steps.get(id) ?? []).map(shownStep),
  }))
}

const shownStep = ({ at, kind, shiftId, channel, by, why }: KeptStep) => ({
  at,
  kind,
  shiftId,
  channel,
  by,
  why,
})
