import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { tell } from '../notify/bus.ts'
import { deliverLane } from '../notify/deliver.ts'
import type { House, Lane } from '../notify/letters.ts'
import { endEscalation } from '../notify/settle-escalation.ts'
import type { Transports } from '../notify/transport.ts'
import { afterHoursClinics } from '../store/after-hours.ts'
import {
  addEscalation,
  addEscalationStep,
  type KeptEscalation,
  standingEscalations,
} from '../store/escalations.ts'
import { read, type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { checkHours, stepDue } from './escalate.ts'
import { type Trouble, troublesNow } from './troubles.ts'

const LANES: readonly Lane[] = ['pressing', 'pressing-text']

/** What a look found, and what was done about it. */
export type Watched = { troubles: Trouble[]; opened: number; ended: number; errors: unknown[] }

/**
 * Looks whether the sweep, the escalations and the outbox still run, from outside of all three. What has stopped is
 * told to the person on call of each clinic, at any hour. While anything is in trouble the look itself takes the steps
 * that are due and hands on what cannot wait, by every way that still works: it does not lean on what it watches.
 */
export async function watch(now: Date, house: House, transports: Transports): Promise<Watched> {
  const troubles = await read((tx) => troublesNow(tx, now))
  const watched: Watched = { troubles, opened: 0, ended: 0, errors: [] }
  const { rows: clinics } = await read((tx) => afterHoursClinics(tx))
  for (const { id } of clinics) {
    const { opened, ended } = await bringInLine(id, troubles, now)
    watched.opened += opened
    watched.ended += ended
    if (opened + ended > 0) tell(id, { patientId: '', kind: 'escalation' })
  }
  if (troubles.length === 0) return watched
  for (const { error } of (await checkHours(now)).errors) watched.errors.push(error)
  for (const { error } of (await stepDue(now, house.onCall)).errors) watched.errors.push(error)
  for (const lane of LANES)
    for (const { error } of (await deliverLane(lane, transports, house, now)).errors)
      watched.errors.push(error)
  return watched
}

/** One escalation of the system a clinic at the most: opened with the first trouble, ended with the last. */
async function bringInLine(
  clinicId: string,
  troubles: readonly Trouble[],
  now: Date,
): Promise<{ opened: number; ended: number }> {
  const ofSystem = async (tx: Tx) =>
    (await standingEscalations(tx, clinicId)).rows.find(({ patientId }) => patientId === null) ?? null
  const [first] = troubles
  const standing = await read(ofSystem)
  if (Boolean(first) === Boolean(standing)) return { opened: 0, ended: 0 }
  return write(async (tx) => {
    const under = await ofSystem(tx)
    if (first && !under) return { opened: await open(tx, clinicId, troubles, now), ended: 0 }
    if (!first && under) return { opened: 0, ended: await end(tx, under, now) }
    return { opened: 0, ended: 0 }
  })
}

async function open(tx: Tx, clinicId: string, troubles: readonly Trouble[], now: Date): Promise<number> {
  const about = troubles.map(({ says }) => says).join(' ')
  const id = await addEscalation(tx, { clinicId, patientId: null, about, urgency: 'within-1h' }, now)
  await addEscalationStep(tx, { id, clinicId }, { kind: 'opened', why: about }, now)
  await note(tx, clinicId, about, now)
  return 1
}

async function end(tx: Tx, standing: KeptEscalation, now: Date): Promise<number> {
  const why = 'All of it runs again.'
  await endEscalation(tx, standing, why, now)
  await note(tx, standing.clinicId, why, now)
  return 1
}

const note = (tx: Tx, clinicId: string, what: string, now: Date) =>
  recordAccess(tx, {
    clinicId,
    at: stored(now),
    staffId: null,
    actor: 'watchdog',
    action: 'system-trouble',
    patientId: null,
    what,
  })

const EVERY_MS = 15_000
const KEY = Symbol.for('outflow.watchdog')
const shared = globalThis as typeof globalThis & { [KEY]?: NodeJS.Timeout }

/**
 * Looks every 15 seconds in this process, by a timer of its own, started once. What it finds twice in a row it acts on: a
 * machine that slept has for a moment much that is overdue. `onTrouble` is told of each look that finds any.
 */
export function startWatchdog(
  house: House,
  transports: Transports,
  onTrouble: (troubles: readonly Trouble[]) => void,
  onError: (error: unknown) => void,
): void {
  if (shared[KEY]) return
  let running = false
  let seen = 0
  const look = async () => {
    if (running) return
    running = true
    try {
      const troubles = await read((tx) => troublesNow(tx, clock()))
      seen = troubles.length > 0 ? seen + 1 : 0
      if (seen === 1) return
      const { errors } = await watch(clock(), house, transports)
      if (seen > 0) onTrouble(troubles)
      for (const error of errors) onError(error)
    } catch (error) {
      onError(error)
    } finally {
      running = false
    }
  }
  shared[KEY] = setInterval(look, EVERY_MS)
  shared[KEY].unref()
}
