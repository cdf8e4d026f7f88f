import { now as clock } from '../clock.ts'
import { cellOf } from '../domain/after-hours.ts'
import type { ClinicHours } from '../domain/clinic-hours.ts'
import { closedBetween } from '../domain/opening.ts'
import { tell } from '../notify/bus.ts'
import { escalate, isOpenNow } from '../notify/open-escalation.ts'
import { settleEscalation } from '../notify/settle-escalation.ts'
import { type AfterHoursClinic, afterHoursClinics } from '../store/after-hours.ts'
import { dueEscalations, escalationById, saveEscalation, standingEscalations } from '../store/escalations.ts'
import { read, type Tx, write } from '../store/index.ts'
import { dropLease, takeLease } from '../store/leases.ts'
import { type PressingFlag, untoldFlags } from '../store/pressing.ts'
import { grouped, newId, stored } from '../store/rows.ts'
import { stepEscalation } from './escalation-step.ts'

const ROUND = 50
const LEASE = 'escalations'
const LEASE_MS = 60_000
/** After how long one whose step failed is tried again. */
const AGAIN_MS = 30_000

const holder = newId()

export type Stepped = { steps: number; errors: { escalationId: string | null; error: unknown }[] }

/**
 * Takes the steps that are due, each in a transaction of its own, those alone that the index names. One that fails
 * holds up no other. A lease keeps a second process from the same work; each step is asked for again under the lock.
 */
export async function stepDue(now: Date, lastResort: string | null): Promise<Stepped> {
  const stepped: Stepped = { steps: 0, errors: [] }
  const first = await read((tx) => dueEscalations(tx, now, 1))
  if (first.rows.length === 0 || !(await lease())) return stepped
  try {
    const { rows } = await read((tx) => dueEscalations(tx, now, ROUND))
    for (const { id, clinicId, patientId } of rows) {
      try {
        if (await write((tx) => stepEscalation(tx, id, now, lastResort))) stepped.steps += 1
        tell(clinicId, { patientId: patientId ?? '', kind: 'escalation' })
      } catch (error) {
        stepped.errors.push({ escalationId: id, error })
        const nextAt = stored(new Date(now.getTime() + AGAIN_MS))
        await write((tx) => saveEscalation(tx, id, { nextAt }))
      }
    }
    return stepped
  } finally {
    await write((tx) => dropLease(tx, LEASE, holder))
  }
}

const lease = () => write((tx) => takeLease(tx, LEASE, holder, clock(), LEASE_MS))

/**
 * Looks at every clinic: ends what is over, and where the clinic's table now has somebody told, opens an escalation for
 * each patient with something pressing that nobody is at work on. So the rows that stand when the clinic closes reach
 * somebody, and those that were taken then and left.
 */
export async function checkHours(now: Date): Promise<Stepped> {
  const checked: Stepped = { steps: 0, errors: [] }
  const { rows: clinics } = await read((tx) => afterHoursClinics(tx))
  for (const clinic of clinics) {
    try {
      checked.steps += (await settleAll(clinic.id, now)) + (await openForUntold(clinic, now))
    } catch (error) {
      checked.errors.push({ escalationId: null, error })
    }
  }
  return checked
}

/** Ends those of a clinic that are over. One of the system's own is the watchdog's to end. */
async function settleAll(clinicId: string, now: Date): Promise<number> {
  const { rows } = await read((tx) => standingEscalations(tx, clinicId))
  let ended = 0
  for (const standing of rows) {
    if (standing.patientId === null) continue
    if (!(await write((tx) => settleIfStanding(tx, standing.id, now)))) continue
    ended += 1
    tell(clinicId, { patientId: standing.patientId, kind: 'escalation' })
  }
  return ended
}

async function settleIfStanding(tx: Tx, id: string, now: Date): Promise<boolean> {
  const standing = await escalationById(tx, id)
  return standing?.endedAt === null && (await settleEscalation(tx, standing, now))
}

async function openForUntold(clinic: AfterHoursClinic, now: Date): Promise<number> {
  const isOpen = isOpenNow(clinic, now)
  const tells = ({ urgency }: PressingFlag) => cellOf(clinic.table, urgency, isOpen).tell === 'on-call'
  if (clinic.hours === null) return 0
  const longClosed = isClosedThrough(
    clinic.hours,
    clinic.timeZone,
    now.getTime() - WORKED_ON_MS,
    now.getTime(),
  )
  const takenAt = longClosed ? null : stored(now)
  const untold = async (tx: Tx) => (await untoldFlags(tx, clinic.id, takenAt)).rows.filter(tells)
  if ((await read(untold)).length === 0) return 0
  const opened = await write(async (tx) => {
    const patients = grouped(await untold(tx), ({ patientId }) => patientId)
    for (const [patientId, flags] of patients)
      await escalate(tx, { clinicId: clinic.id, patientId }, flags, now, LEFT)
    return [...patients.keys()]
  })
  for (const patientId of opened) tell(clinic.id, { patientId, kind: 'escalation' })
  return opened.length
}

/** A row taken at closing time is worked on for so long; a page that was left open keeps one for longer. */
const WORKED_ON_MS = 60 * 60_000

function isClosedThrough(hours: ClinicHours, zone: string, from: number, until: number): boolean {
  const [closed] = closedBetween(hours, zone, from, until)
  return closed?.from === from && closed.until === until
}

const LEFT = 'The clinic is closed, and nobody has taken the row.'
