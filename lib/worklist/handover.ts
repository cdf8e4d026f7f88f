import { recordAccess } from '../access/record.ts'
import { stands } from '../assessment/flag-life.ts'
import { now as clock } from '../clock.ts'
import { HandoverStep, NewHandover, needsName } from '../domain/handover.ts'
import type { Instant } from '../domain/instant.ts'
import { clockTime } from '../domain/local-time.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import { may, type StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { clinicById } from '../store/clinics.ts'
import { livingFlagsOf } from '../store/flags.ts'
import {
  acceptancesOf,
  addAcceptance,
  addHandover,
  handoverById,
  type KeptHandover,
  openHandoverOf,
  saveHandover,
  sealHandover,
} from '../store/handovers.ts'
import { type Tx, write } from '../store/index.ts'
import { newId, stored } from '../store/rows.ts'
import { composeSheet } from './handover-sheet.ts'
import { isOfClinic } from './patient-of.ts'

/**
 * Opens the handover of a shift: whoever opens it gives it. A clinic has one open at a time.
 * @throws Refusal conflict (one is open), invalid-input, key-reused
 */
export async function openHandover(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ handover: string }> {
  const read = NewHandover.safeParse(body)
  if (!read.success)
    throw new Refusal('invalid-input', 'The handover is not as it is accepted.', faultsOf(read.error, body))
  const { clinicId } = staff
  const at = stored(now)
  const request = { clinicId, source: staff.id, key, body: { open: body } }
  const opened = await write((tx) =>
    answerOnce(tx, request, at, async () => {
      const open = await openHandoverOf(tx, clinicId)
      if (open) {
        const { givenBy, openedAt } = open.handover
        const since = await hour(tx, clinicId, openedAt)
        throw new Refusal('conflict', `${givenBy.name} opened a handover at ${since}; that one comes first.`)
      }
      const id = newId()
      await addHandover(tx, { id, clinicId, recordedAt: at, givenBy: staff.id, note: read.data.note ?? '' })
      await note(tx, staff, null, `opened a handover (${id})`, at)
      return { handover: id }
    }),
  )
  tell(clinicId, { patientId: '', kind: 'handover' })
  return opened
}

/**
 * One step of an open handover: its note, the acceptance of a row, a signature, or its withdrawal. The second of the
 * two signatures freezes the page as it stands then.
 * @throws Refusal not-found, conflict (it is over; it is somebody else's), invalid-input, key-reused
 */
export async function stepHandover(
  staff: StaffMember,
  id: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ signed: boolean }> {
  const read = HandoverStep.safeParse(body)
  if (!read.success)
    throw new Refusal('invalid-input', 'The step is not as it is accepted.', faultsOf(read.error, body))
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { handover: id, step: body } }
  const done = await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const kept = await handoverById(tx, clinicId, id)
      if (!kept) throw new Refusal('not-found', 'There is no such handover.')
      await refuseIfOver(tx, clinicId, kept)
      return take(tx, { staff, kept, now }, read.data)
    }),
  )
  tell(clinicId, {
    patientId: read.data.step === 'accept' ? read.data.patientId : '',
    kind: 'handover',
  })
  return done
}

type Call = { staff: StaffMember; kept: KeptHandover; now: Date }

async function take(tx: Tx, call: Call, step: HandoverStep): Promise<{ signed: boolean }> {
  const { staff, kept, now } = call
  const { id, givenBy } = kept.handover
  const isGiver = givenBy.id === staff.id
  const at = stored(now)
  if (step.step === 'accept') await accept(tx, call, step.patientId)
  if (step.step === 'note') {
    if (!isGiver) throw new Refusal('conflict', `The note is ${givenBy.name}’s, who gives.`)
    await saveHandover(tx, id, { note: step.note })
    await note(tx, staff, null, `wrote the note of a handover (${id})`, at)
  }
  if (step.step === 'withdraw') {
    if (!isGiver && !may(staff.role, 'override-take'))
      throw new Refusal('conflict', `Only ${givenBy.name}, who gives, or a charge nurse withdraws it.`)
    await saveHandover(tx, id, { withdrawnAt: at, withdrawnBy: staff.id })
    await note(tx, staff, null, `withdrew a handover (${id})`, at)
  }
  return { signed: step.step === 'sign' ? await sign(tx, call, isGiver) : false }
}

/** Accepts one row by name. Asked of the flags as they are now: what no longer presses needs nobody. */
async function accept(tx: Tx, { staff, kept, now }: Call, patientId: string): Promise<void> {
  const { id, givenBy } = kept.handover
  if (givenBy.id === staff.id)
    throw new Refusal('conflict', 'You give this handover; somebody else must accept its rows.')
  await isOfClinic(tx, staff.clinicId, patientId)
  const { rows } = await livingFlagsOf(tx, patientId)
  if (!rows.some((flag) => stands(flag) && needsName(flag.urgency)))
    throw new Refusal('conflict', 'This row is no longer at once or within 1 hour: nobody need accept it.')
  const earlier = (await acceptancesOf(tx, id)).rows.find((row) => row.patientId === patientId)
  if (earlier?.by === staff.id) return
  if (earlier) throw new Refusal('conflict', `${earlier.name} has accepted this row already.`)
  const at = stored(now)
  await addAcceptance(tx, { handoverId: id, patientId, acceptedBy: staff.id, acceptedAt: at })
  await note(tx, staff, patientId, `accepted the row from ${givenBy.name} (handover ${id})`, at)
}

/** Signs for one of the two sides. Answers whether both have now signed. */
async function sign(tx: Tx, { staff, kept, now }: Call, isGiver: boolean): Promise<boolean> {
  const { id, givenAt, takenAt, takenBy } = kept.handover
  const at = stored(now)
  if (!isGiver && takenBy !== null && takenBy.id !== staff.id) {
    const since = await hour(tx, staff.clinicId, takenAt ?? at)
    throw new Refusal('conflict', `${takenBy.name} took this handover at ${since}.`)
  }
  if (isGiver ? givenAt !== null : takenAt !== null) return false
  await saveHandover(tx, id, isGiver ? { givenAt: at } : { takenBy: staff.id, takenAt: at })
  await note(tx, staff, null, `signed a handover as who ${isGiver ? 'gives' : 'takes'} (${id})`, at)
  if (isGiver ? takenAt === null : givenAt === null) return false
  await sealHandover(tx, id, await composeSheet(tx, staff.clinicId, now))
  return true
}

async function refuseIfOver(tx: Tx, clinicId: string, { body, withdrawnAt, handover }: KeptHandover) {
  if (withdrawnAt !== null)
    throw new Refusal('conflict', `This handover was withdrawn at ${await hour(tx, clinicId, withdrawnAt)}.`)
  if (body !== null)
    throw new Refusal(
      'conflict',
      `This handover is signed by both: ${handover.takenBy?.name} took it at ${await hour(tx, clinicId, handover.takenAt ?? body.asOf)}.`,
    )
}

/** The clinic's own time of day, for a sentence. */
async function hour(tx: Tx, clinicId: string, at: Instant): Promise<string> {
  const clinic = await clinicById(tx, clinicId)
  return clockTime(at, clinic?.timeZone ?? 'UTC')
}

const note = (tx: Tx, staff: StaffMember, patientId: string | null, what: string, at: string) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'hand-over',
    patientId,
    what,
  })
