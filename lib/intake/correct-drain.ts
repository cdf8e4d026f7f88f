import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { isRemoved } from '../assessment/tube.ts'
import { now as clock } from '../clock.ts'
import { correctionNote, correctionReason, DrainCorrection, isAlike } from '../domain/drain-change.ts'
import { isUrinary } from '../domain/kinds.ts'
import { kindLabels } from '../domain/labels.ts'
import { dateAndTime } from '../domain/local-time.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { addPlan, planVersionsOf } from '../store/care-plans.ts'
import { type DrainFacts, drainsOf, type Recorded, saveDrainFacts } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { addNote } from '../store/patient-notes.ts'
import { countedAt, newId, stored } from '../store/rows.ts'
import { staffEventsOf } from '../store/staff-events.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'
import { placementFaults } from './placement-faults.ts'

/**
 * Corrects what a drain was enrolled as, with a reason. What it was before stands in a note on the patient and in the
 * access record. Under another kind, or placed at another time, all that was measured of it is judged anew: a flag that no
 * longer holds ends, or is owed a call; what was flagged and said before stays as it was.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function correctDrain(
  staff: StaffMember,
  patientId: string,
  drainId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ drain: string }> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { correctDrain: drainId, body } }
  const corrected = await write((tx) =>
    answerOnce(tx, request, stored(now), () => correct(tx, staff, patientId, drainId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'orders' })
  return corrected
}

async function correct(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  drainId: string,
  body: unknown,
  now: Date,
) {
  const { why, ...said } = parse('correction', DrainCorrection, body)
  const { clinicId } = staff
  const at = stored(now)
  const { timeZone: zone } = await patientOf(tx, clinicId, patientId)
  const { rows: drains } = await drainsOf(tx, patientId, at)
  const before = drains.find(({ id }) => id === drainId)
  if (!before) throw new Refusal('not-found', 'This patient has no such drain.')
  const events = (await staffEventsOf(tx, patientId, at)).rows
  const others = drains.filter(
    ({ id }) => id !== drainId && !isRemoved(events.filter((event) => event.drainId === id)),
  )
  if (others.some((other) => isAlike(other.label, said.label)))
    throw new Refusal('invalid-input', 'The correction is not as it is accepted.', [
      { field: 'label', value: said.label, message: 'accepted: a name that no other drain in place has' },
    ])

  const { kind = before.kind, onlyKidney = before.onlyKidney } = said
  const placedAt = stored(said.placedAt ?? before.placedAt)
  if (said.onlyKidney && !isUrinary(kind))
    throw new Refusal('invalid-input', 'The correction is not as it is accepted.', [
      { field: 'onlyKidney', value: true, message: 'accepted only of a drain of a kidney' },
    ])
  const own = events.filter((event) => event.drainId === drainId)
  const faults = await placementFaults(tx, { patientId, zone, now }, before, placedAt, own)
  if (faults.length > 0)
    throw new Refusal('invalid-input', 'The correction is not as it is accepted.', faults)
  const after: DrainFacts = { ...said, kind, placedAt, onlyKidney: onlyKidney && isUrinary(kind) }
  await saveDrainFacts(tx, drainId, after)
  const text = correctionNote(`${inWords(before, after, zone)} is ${inWords(after, before, zone)}. ${why}`)
  const recorded = { clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  if (kind !== before.kind) await fitOrders(tx, drainId, after, why, recorded)
  await addNote(tx, { id: newId(), text }, recorded)
  await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'correct-drain',
    patientId,
    what: `drain ${drainId}: ${text}`,
  })
  return { drain: drainId }
}

/** A drain as a note names it: by its name and side, and by what else is otherwise in the other. Times are those of the zone. */
function inWords(drain: DrainFacts, other: DrainFacts, zone: string): string {
  const { label, side, kind, placedAt, onlyKidney } = drain
  return [
    `${label} (${side ?? 'no side'})`,
    ...(kind === other.kind ? [] : [kindLabels[kind].toLowerCase()]),
    ...(Date.parse(placedAt) === Date.parse(other.placedAt) ? [] : [`placed ${dateAndTime(placedAt, zone)}`]),
    ...(onlyKidney === other.onlyKidney ? [] : [onlyKidney ? 'only kidney' : 'not the only kidney']),
  ].join(', ')
}

/**
 * What was ordered for the wrong kind alone is ordered no more: a course against its usual one, and that it drains inside,
 * by which the rules would wait longer. Everything else stays as it was ordered.
 */
async function fitOrders(
  tx: Tx,
  drainId: string,
  { kind }: DrainFacts,
  why: string,
  recorded: Recorded,
): Promise<void> {
  const { patientId, recordedAt: at } = recorded
  const versions = (await planVersionsOf(tx, patientId, at)).rows.filter((plan) => plan.drainId === drainId)
  const before = versions.findLast(countedAt(at))
  if (!before || (before.course === null && before.drainage !== 'internal-external')) return
  const { recordedAt: _, recordedBy: __, withdrawnAt: ___, withdrawnBy: ____, ...plan } = before
  const version = Math.max(...versions.map((one) => one.version)) + 1
  const words = correctionReason(`${kindLabels[kind].toLowerCase()}: ${why}`)
  await addPlan(tx, { ...plan, version, validFrom: at, why: words, course: null, drainage: null }, recorded)
}
