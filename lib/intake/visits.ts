import { recordAccess } from '../access/record.ts'
import { recordDrainEvent } from '../assessment/drain-event.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { NewVisitStep, type Visit } from '../domain/visit.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { drainsOf, type Recorded } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { newId, stored } from '../store/rows.ts'
import { addVisitStep, isOpen, latestSteps, type VisitStep, visitStepsOf } from '../store/visits.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'

/** Farthest ahead that a booking is taken for meant, in days. */
const AHEAD_MAX_DAYS = 731
/** What a visit that is done says of its drain. */
const eventOf = { exchange: 'exchanged', removal: 'removed' } as const

/**
 * Takes a step of a visit: requests it, books or re-books it, calls it off, or records that it was done, which
 * records the exchange or the removal of the drain as well. The patient is assessed anew.
 * @throws Refusal invalid-input, not-found, conflict (the visit is over, or there is an open one), key-reused
 */
export async function stepVisit(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<Visit> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { visit: body, patientId } }
  const visit = await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      await patientOf(tx, staff.clinicId, patientId)
      return bookVisitWithin(tx, staff, patientId, parse('visit', NewVisitStep, body), now)
    }),
  )
  tell(staff.clinicId, { patientId, kind: 'visit' })
  return visit
}

/** The same within a transaction of the caller's, whose patient it is known to be. */
export async function bookVisitWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  wanted: NewVisitStep,
  now: Date,
): Promise<Visit> {
  const { clinicId } = staff
  const recorded: Recorded = { clinicId, patientId, recordedAt: stored(now), recordedBy: staff.id }
  const before = latestSteps((await visitStepsOf(tx, patientId, recorded.recordedAt)).rows)
  refuseFaults(await faultsOf(tx, patientId, wanted, now))
  const standing = standingOf(before, wanted)
  const visit: Visit = {
    id: standing?.visitId ?? newId(),
    drain: wanted.drain,
    kind: wanted.kind,
    state: wanted.state,
    bookedFor: wanted.state === 'booked' && wanted.at ? stored(wanted.at) : (standing?.bookedFor ?? null),
  }
  await addVisitStep(tx, visit, wanted.why || null, recorded)
  if (visit.state === 'done' && wanted.at) {
    const who = { clinicId, patientId, recordedBy: staff.id }
    const note = wanted.why || undefined
    await recordDrainEvent(
      tx,
      who,
      { at: wanted.at, drain: visit.drain, type: eventOf[visit.kind], note },
      now,
    )
  } else await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId,
    at: recorded.recordedAt,
    staffId: staff.id,
    actor: staff.name,
    action: 'visit',
    patientId,
    what: inWords(visit, wanted),
  })
  return visit
}

/** The visit that a step goes on with; null where it begins one. */
function standingOf(
  before: readonly VisitStep[],
  { visit, drain, kind, state }: NewVisitStep,
): VisitStep | null {
  const open = before.find((one) => one.drainId === drain && one.kind === kind && isOpen(one))
  if (visit === undefined) {
    if (open)
      throw new Refusal(
        'conflict',
        `There is an open ${kind} of this drain already; re-book it or call it off.`,
      )
    return null
  }
  const found = before.find((one) => one.visitId === visit && one.drainId === drain && one.kind === kind)
  if (!found) throw new Refusal('not-found', 'This patient has no such visit.')
  if (!isOpen(found)) throw new Refusal('conflict', `This visit is ${found.state} already; begin a new one.`)
  if (state === 'requested') throw new Refusal('conflict', 'This visit is requested already.')
  return found
}

async function faultsOf(tx: Tx, patientId: string, wanted: NewVisitStep, now: Date): Promise<Fault[]> {
  const { visit, drain, state, at } = wanted
  const faults: Fault[] = []
  const drains = (await drainsOf(tx, patientId, stored(now))).rows.map(({ id }) => id)
  if (!drains.includes(drain))
    faults.push({
      field: 'drain',
      value: drain,
      message: `names no drain of this patient; accepted: ${drains.join(', ')}`,
    })
  if (visit === undefined && state !== 'requested' && state !== 'booked')
    faults.push({ field: 'visit', message: `is missing; needed for a visit that is ${state}` })
  const isTimed = state === 'booked' || state === 'done'
  if (isTimed && !at) faults.push({ field: 'at', message: `is missing; accepted: when it is ${state}` })
  if (!isTimed && at) faults.push({ field: 'at', value: at, message: 'accepted only beside booked and done' })
  if (state === 'booked' && at) {
    const aheadMs = Date.parse(at) - now.getTime()
    if (aheadMs <= 0 || aheadMs > AHEAD_MAX_DAYS * 86_400_000)
      faults.push({ field: 'at', value: at, message: 'accepted: a time ahead, within two years' })
  }
  return faults
}

function refuseFaults(faults: Fault[]): void {
  if (faults.length > 0) throw new Refusal('invalid-input', 'The visit is not as it is accepted.', faults)
}

function inWords({ kind, drain, state, bookedFor }: Visit, { at, why }: NewVisitStep): string {
  const time = state === 'booked' ? ` for ${bookedFor}` : state === 'done' && at ? ` at ${stored(at)}` : ''
  return `${kind} of drain ${drain}: ${state}${time}${why ? `: ${why}` : ''}`
}
