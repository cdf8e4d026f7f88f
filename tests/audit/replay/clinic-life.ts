import type { Report } from '../../../lib/domain/record.ts'
import type { RuleSet } from '../../../lib/domain/ruleset.ts'
import { enrol, receiveReport } from '../../../lib/intake/index.ts'
import { type SimulatedPatient, simulatePatient } from '../../../lib/simulate/index.ts'
import { read, write } from '../../../lib/store/index.ts'
import { historiesOf } from '../../../lib/store/replay-history.ts'
import { markDueAt } from '../../../lib/store/rule-sets.ts'
import { recordCallback, recordStaffEvent, sweep } from '../../../lib/worklist/index.ts'
import { at, CLINIC, enrolment, iso, nurse } from '../../store/clinic.ts'

/* A clinic's life through its real doors, with the sweep at each instant at which it is due. */

let count = 0
export const key = () => `life-${++count}`
const HOUR = 3_600_000
const START = at(0).getTime()
export const hoursOf = (instant: string) => (Date.parse(instant) - START) / HOUR

/** Sweeps at every instant that falls due until then. */
export async function sweepUntil(hours: number): Promise<void> {
  for (;;) {
    const due = await read((tx) =>
      tx.patientState.findFirst({
        where: { nextCheckAt: { not: null, lte: iso(hours) } },
        orderBy: { nextCheckAt: 'asc' },
      }),
    )
    if (!due?.nextCheckAt) return
    await sweep(new Date(due.nextCheckAt))
  }
}

export type Living = { patientId: string; drains: Map<string, string>; simulated: SimulatedPatient }

export async function begin(seed: number, days: number): Promise<Living> {
  const simulated = simulatePatient(seed, { start: iso(0), days, adherence: 0.7 })
  const { enrolment: record } = simulated
  const drains = record.drains.map((drain, i) => {
    const { id: _id, ...rest } = drain
    return { ...rest, label: `drain ${i + 1}` }
  })
  const body = enrolment({
    timeZone: record.timeZone,
    usual: record.usual ?? null,
    enrolledAt: iso(0),
    drains,
  })
  const { patientId } = await enrol(nurse, body, key(), at(0))
  const kept = await read((tx) => tx.drain.findMany({ where: { patientId }, orderBy: { ordinal: 'asc' } }))
  return {
    patientId,
    simulated,
    drains: new Map(record.drains.map(({ id }, i) => [id, kept[i]?.id ?? ''])),
  }
}

/** What a simulated report says, as its sender sends it. */
export async function send(of: Living, report: Report, hours = hoursOf(report.receivedAt)): Promise<string> {
  const own = <T extends { drain: string }>(part: T): T => ({
    ...part,
    drain: of.drains.get(part.drain) ?? part.drain,
  })
  const { readings, flushes, dressings, symptoms } = report
  const body = {
    readings: readings?.map(own),
    flushes: flushes?.map(own),
    dressings: dressings?.map(own),
    symptoms: symptoms ? { ...symptoms, drains: symptoms.drains?.map(own) } : null,
  }
  const incoming = {
    ...{ clinicId: CLINIC, patientId: of.patientId, door: 'system' as const, source: 'sim', by: null },
    ...{ key: key(), body },
  }
  return (await receiveReport(incoming, at(hours))).report
}

export const standing = (patientId: string) =>
  read((tx) => tx.flag.findMany({ where: { patientId, state: { in: ['open', 'owed'] } } }))

/** A call that reaches the patient and closes what stands. Gives its id. */
export async function call(patientId: string, hours: number, lookAgain = 20): Promise<string> {
  const flags = await standing(patientId)
  const body = {
    outcome: 'reached' as const,
    spokenTo: 'patient' as const,
    agreed: ['clinic-visit' as const],
    closes: flags.map(({ id }) => id),
    lookAgainAt: iso(hours + lookAgain),
  }
  return (await recordCallback(nurse, patientId, body, key(), at(hours))).callback
}

export const event = (of: Living, type: string, hours: number, happened = hours) =>
  recordStaffEvent(
    nurse,
    of.patientId,
    { at: iso(happened), drain: [...of.drains.values()][0], type },
    key(),
    at(hours),
  )

/** As a rule set comes into force: every patient is due then. */
export const putInForce = (rules: RuleSet, hours: number) =>
  write(async (tx) => {
    await tx.ruleSet.create({
      data: {
        ...{ id: key(), clinicId: CLINIC, version: rules.version, body: JSON.stringify(rules) },
        ...{ inForceFrom: iso(hours), recordedAt: iso(hours), recordedBy: 'test' },
      },
    })
    await markDueAt(tx, CLINIC, iso(hours))
  })

/** The histories of all patients as they were known by then. */
export async function histories(hours: number) {
  const rows = await read((tx) => tx.patient.findMany({ where: { clinicId: CLINIC }, select: { id: true } }))
  return read((tx) =>
    historiesOf(
      tx,
      CLINIC,
      rows.map(({ id }) => id),
      iso(hours),
    ),
  )
}
