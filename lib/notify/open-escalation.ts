import { cellOf, type FlaggedUrgency } from '../domain/after-hours.ts'
import { findingLabels } from '../domain/labels.ts'
import { isOpen } from '../domain/opening.ts'
import { type FindingCode, urgencyRank } from '../domain/words.ts'
import { type AfterHoursClinic, afterHoursClinic } from '../store/after-hours.ts'
import {
  addEscalation,
  addEscalationStep,
  type KeptEscalation,
  saveEscalation,
  standingEscalation,
} from '../store/escalations.ts'
import type { Tx } from '../store/index.ts'
import { stored } from '../store/rows.ts'

/** What has become pressing. */
export type Pressing = { code: FindingCode; urgency: FlaggedUrgency }
type Whose = { clinicId: string; patientId: string }

/** Whether a clinic is open at an instant. One that has not said when it is counts as open always. */
export const isOpenNow = (
  { hours, timeZone }: Pick<AfterHoursClinic, 'hours' | 'timeZone'>,
  now: Date,
): boolean => hours === null || isOpen(hours, timeZone, now.getTime())

/**
 * Sees to it that somebody is told of what has become pressing, in the transaction that made it so, if the clinic's
 * table says that somebody is told at this hour. One escalation a patient: what comes on top raises it, or is
 * news to whoever has it. Says whether an escalation stands for it now.
 * @param why why it is opened, to a person
 */
export async function escalate(
  tx: Tx,
  { clinicId, patientId }: Whose,
  pressing: readonly Pressing[],
  now: Date,
  why = 'It came while the clinic is closed.',
): Promise<boolean> {
  const clinic = await afterHoursClinic(tx, clinicId)
  const [most] = pressing.toSorted((a, b) => urgencyRank[b.urgency] - urgencyRank[a.urgency])
  if (!clinic || !most) return false
  const labels = [...new Set(pressing.map(({ code }) => findingLabels[code]))]
  const standing = await standingEscalation(tx, patientId)
  if (standing) {
    await addTo(tx, standing, labels, most.urgency, now)
    return true
  }
  if (cellOf(clinic.table, most.urgency, isOpenNow(clinic, now)).tell === 'nobody') return false
  const about = labels.join(', ')
  const id = await addEscalation(tx, { clinicId, patientId, about, urgency: most.urgency }, now)
  await addEscalationStep(tx, { id, clinicId }, { kind: 'opened', why: `${about}. ${why}` }, now)
  return true
}

/** More urgent: whoever has it is asked anew. Else whoever has it is told once; others hear of it with the next message. */
async function addTo(
  tx: Tx,
  standing: KeptEscalation,
  labels: readonly string[],
  urgency: FlaggedUrgency,
  now: Date,
): Promise<void> {
  const at = stored(now)
  const isRaised = urgencyRank[urgency] > urgencyRank[standing.urgency]
  const about = [...new Set([...standing.about.split(', '), ...labels])].join(', ')
  const nextAt = isRaised || standing.haveItAt !== null ? at : standing.nextAt
  await saveEscalation(tx, standing.id, {
    about,
    nextAt,
    ...(isRaised ? { urgency, haveItAt: null, haveItBy: null } : {}),
  })
  const kind = isRaised ? ('raised' as const) : ('news' as const)
  await addEscalationStep(tx, standing, { kind, why: `${labels.join(', ')}.` }, now)
}
