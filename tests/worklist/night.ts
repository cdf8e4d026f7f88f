import type { AfterHours } from '../../lib/domain/after-hours.ts'
import type { NewShift } from '../../lib/domain/rota.ts'
import { receiveReport } from '../../lib/intake/index.ts'
import { onCallToken } from '../../lib/notify/on-call-token.ts'
import { read, write } from '../../lib/store/index.ts'
import { addToRota } from '../../lib/worklist/index.ts'
import { at, CLINIC, chargeNurse, iso, wellReport } from '../store/clinic.ts'

export const SECRET = 's'.repeat(32)
/** In hours after Monday 01:00 in Denver: the clinic opens Monday 08:00, closes 17:00, opens again Tuesday 08:00. */
export const OPENS = 7
export const CLOSES = 16
export const NIGHT = 20
export const MORNING = 31

const office = [{ from: '08:00', until: '17:00' }]
export const hours = {
  week: { mon: office, tue: office, wed: office, thu: office, fri: office },
  holidays: [],
}

/** Gives the clinic opening hours, and a table if one is named. */
export const setHours = (table: AfterHours | null = null, week: object | null = hours) =>
  write((tx) =>
    tx.clinic.update({
      where: { id: CLINIC },
      data: { hours: week && JSON.stringify(week), afterHours: table && JSON.stringify(table) },
    }),
  )

let count = 0
/** Puts an invented person on call from Monday afternoon until Tuesday evening. */
export async function onCallPerson(name: string, rank: number, change: Partial<NewShift> = {}) {
  const shift: NewShift = {
    name: `${name} (invented)`,
    email: `${name.toLowerCase()}@larkfield.example`,
    phone: null,
    rank,
    from: iso(OPENS),
    until: iso(MORNING + 10),
    ...change,
  }
  await addToRota(chargeNurse, shift, `shift-${++count}`, at(0))
  return shift.name
}

/** A report in which the drain is out, received at that hour. */
export const drainOut = (patientId: string, drain: string, hour: number) => {
  const { symptoms } = wellReport(drain, hour)
  return send(patientId, hour, {
    symptoms: { ...symptoms, drains: [{ drain, position: 'out', leak: false, draining: null }] },
  })
}

/** A report of a leak, within the hour. */
export const leak = (patientId: string, drain: string, hour: number) => {
  const { symptoms } = wellReport(drain, hour)
  return send(patientId, hour, {
    symptoms: { ...symptoms, drains: [{ drain, position: 'in-place', leak: true, draining: true }] },
  })
}

export const send = (patientId: string, hour: number, body: unknown) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: `r-${++count}`, body },
    at(hour),
  )

/** The escalations of the store with their steps as short lines. */
export const escalations = () =>
  read(async (tx) => {
    const all = await tx.escalation.findMany({ orderBy: { recordedAt: 'asc' } })
    const steps = await tx.escalationStep.findMany({ orderBy: [{ at: 'asc' }, { id: 'asc' }] })
    return all.map((one) => ({
      ...one,
      steps: steps.filter(({ escalationId }) => escalationId === one.id),
      lines: steps
        .filter(({ escalationId }) => escalationId === one.id)
        .map(({ kind, by }) => [kind, by?.replace(' (invented)', '')].filter(Boolean).join(' ')),
    }))
  })

/** The secret of the latest message to somebody. */
export async function tokenOf(name: string): Promise<{ id: string; token: string }> {
  const step = await read((tx) =>
    tx.escalationStep.findFirstOrThrow({
      where: { kind: 'told', by: { startsWith: name } },
      orderBy: [{ at: 'desc' }, { id: 'desc' }],
    }),
  )
  return { id: step.escalationId, token: onCallToken(SECRET, step.id) }
}
