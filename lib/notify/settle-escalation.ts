import { cellOf } from '../domain/after-hours.ts'
import { endOf } from '../domain/turn.ts'
import { afterHoursClinic } from '../store/after-hours.ts'
import {
  addEscalationStep,
  type KeptEscalation,
  saveEscalation,
  standingEscalation,
  stepsOf,
} from '../store/escalations.ts'
import type { Tx } from '../store/index.ts'
import { isAdmittedSince, pressingFlagsFor } from '../store/pressing.ts'
import { stored } from '../store/rows.ts'
import { isOpenNow } from './open-escalation.ts'

/** Ends the escalation that stands for a patient, if what it was opened for is over. */
export async function settleEscalationOf(tx: Tx, patientId: string, now: Date): Promise<void> {
  const standing = await standingEscalation(tx, patientId)
  if (standing) await settleEscalation(tx, standing, now)
}

/** The same for one that is known to stand: says whether it is over now. One of the system's own is not ended here. */
export async function settleEscalation(tx: Tx, standing: KeptEscalation, now: Date): Promise<boolean> {
  const { clinicId, patientId } = standing
  if (patientId === null) return false
  const { rows: flags, unreadable } = await pressingFlagsFor(tx, standing.id)
  if (unreadable.length > 0) return false
  const clinic = await afterHoursClinic(tx, clinicId)
  if (!clinic) return false
  const spoken = flags.filter(({ spokenAt }) => spokenAt !== null).length
  const why = endOf({
    isOnWorklist: isOpenNow(clinic, now) && cellOf(clinic.table, standing.urgency, true).tell === 'nobody',
    unspoken: flags.length - spoken,
    spoken,
    isInHospital: await isAdmittedSince(tx, standing.id, await grewAt(tx, standing)),
  })
  if (why === null) return false
  await endEscalation(tx, standing, why, now)
  return true
}

export async function endEscalation(tx: Tx, standing: KeptEscalation, why: string, now: Date): Promise<void> {
  await saveEscalation(tx, standing.id, { endedAt: stored(now), nextAt: null })
  await addEscalationStep(tx, standing, { kind: 'ended', why }, now)
}

/** When it was opened, raised, or something further came. */
async function grewAt(tx: Tx, { id, recordedAt }: KeptEscalation): Promise<string> {
  const { rows } = await stepsOf(tx, id)
  return rows.findLast(({ kind }) => kind === 'raised' || kind === 'news')?.at ?? recordedAt
}
