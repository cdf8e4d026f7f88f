import { isPressing, stands } from '../../assessment/flag-life.ts'
import type { Report } from '../../domain/record.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { enrol, receiveReport } from '../../intake/index.ts'
import { type Intervention, type SimulatedPatient, simulatePatient } from '../../simulate/index.ts'
import { addClinic } from '../../store/clinics.ts'
import { type KeptFlag, livingFlagsOf } from '../../store/flags.ts'
import { read, type Tx, write } from '../../store/index.ts'
import { recordCallback, recordStaffEvent, sweep } from '../../worklist/index.ts'
import { learns } from '../evaluate/nurse.ts'

const HOUR_MS = 3_600_000
const NEVER = Number.POSITIVE_INFINITY
/** Patients who are lived through; the others are copies of them under names of their own. */
export const LIVED = 40
/** Share of days with a report. */
const ADHERENCE = 0.56

const nurse: StaffMember = {
  ...{ id: 'bench-nurse', clinicId: 'bench', name: 'Nora Invented' },
  ...{ email: 'nora@bench.example', role: 'nurse' },
}

/**
 * A clinic whose patients have all been followed for so many days: reports, sweeps and calls of a few through the doors, the
 * rest copied from them in SQL, since a panel that was reported through the doors would take hours.
 */
export async function fillClinic(
  patients: number,
  days: number,
  startMs: number,
  tell: (done: number) => void,
): Promise<void> {
  const start = new Date(startMs)
  await write(async (tx) => {
    const clinic = {
      id: 'bench',
      name: 'Bench clinic (invented)',
      timeZone: 'America/Denver',
      phone: '+1 555 0100',
    }
    await addClinic(tx, { ...clinic, afterHoursPhone: null, demo: true }, start)
    const { id, clinicId, name, email, role } = nurse
    await tx.staff.create({ data: { id, clinicId, name, email, role, createdAt: start, updatedAt: start } })
  })
  const lived = Math.min(LIVED, patients)
  for (let i = 0; i < lived; i++) {
    await live(i + 1, days, startMs)
    tell(i + 1)
  }
  for (const table of TABLES) await copy(table, Math.ceil(patients / lived) - 1)
}

/**
 * One patient from enrolment on, with a nurse who calls about what is clinical, and about a log that is long overdue, within
 * the hour. What a call finds is helped, so that the patient's future depends on it; everything before it does not.
 */
async function live(seed: number, days: number, startMs: number): Promise<void> {
  const start = new Date(startMs).toISOString()
  const interventions: Intervention[] = []
  const phoneIns: number[] = []
  const simulate = () =>
    simulatePatient(seed, { start, days, adherence: ADHERENCE, interventions, reportAtHours: phoneIns })
  let simulated = simulate()
  const { patientId, drains } = await begin(simulated, seed, startMs)
  const endMs = startMs + days * 24 * HOUR_MS
  let callMs = NEVER
  let told = 0
  let done = 0
  for (;;) {
    const report = simulated.reports[told]
    const event = simulated.staffEvents[done]
    const state = await read((tx) => tx.patientState.findUnique({ where: { patientId } }))
    const [reportMs, eventMs, dueMs] = [report?.receivedAt, event?.at, state?.nextCheckAt].map((at) =>
      at ? Date.parse(at) : NEVER,
    ) as [number, number, number]
    const at = Math.min(reportMs, eventMs, dueMs, callMs)
    if (at > endMs) return
    if (at === callMs) {
      const standing = (await read((tx) => livingFlagsOf(tx, patientId))).rows.filter(stands)
      await call(patientId, standing, at)
      for (const { drain, type } of simulated.truth.events.filter((one) =>
        learns(one, asSimulated(standing, drains), at),
      ))
        interventions.push({ at: new Date(at).toISOString(), drain, type })
      if (standing.some(({ code }) => code === 'log-missed')) phoneIns.push((at - startMs) / HOUR_MS + 0.1)
      simulated = simulate()
      callMs = NEVER
      continue
    }
    if (at === reportMs && report) {
      await send(patientId, drains, report)
      told++
    } else if (at === eventMs && event) {
      const body = { at: event.at, drain: drains.get(event.drain ?? ''), type: event.type }
      await recordStaffEvent(nurse, patientId, body, `${patientId} event ${at}`, new Date(at))
      done++
    } else await sweep(new Date(at))
    const standing = (await read((tx) => livingFlagsOf(tx, patientId))).rows.filter(stands)
    if (standing.some(({ nature, urgency }) => nature === 'clinical' || urgency === 'within-24h'))
      callMs = Math.min(callMs, at + 0.7 * HOUR_MS)
  }
}

/** Flags by the simulator's names of the drains. */
function asSimulated(flags: readonly KeptFlag[], drains: ReadonlyMap<string, string>): KeptFlag[] {
  const names = new Map([...drains].map(([name, id]) => [id, name]))
  return flags.map((flag) => ({ ...flag, drain: flag.drain && (names.get(flag.drain) ?? null) }))
}

async function begin({ enrolment }: SimulatedPatient, seed: number, startMs: number) {
  const { timeZone, usual } = enrolment
  const body = {
    ...{ name: `Bench ${seed} (invented)`, birthDate: '1950-01-01', recordNumber: `BN-${seed}`, timeZone },
    ...{ usual: usual ?? null, enrolledAt: new Date(startMs).toISOString() },
    drains: enrolment.drains.map(({ id: _id, ...drain }, i) => ({ ...drain, label: `drain ${i + 1}` })),
  }
  const { patientId } = await enrol(nurse, body, `enrol-${seed}`, new Date(startMs))
  const kept = await read((tx) => tx.drain.findMany({ where: { patientId }, orderBy: { ordinal: 'asc' } }))
  return { patientId, drains: new Map(enrolment.drains.map(({ id }, i) => [id, kept[i]?.id ?? id])) }
}

async function send(patientId: string, drains: ReadonlyMap<string, string>, report: Report): Promise<void> {
  const own = <T extends { drain: string }>(part: T): T => ({
    ...part,
    drain: drains.get(part.drain) ?? part.drain,
  })
  const { readings, flushes, dressings, symptoms } = report
  const body = {
    // A mistyped volume that nobody would be let send is sent as the most that is taken.
    readings: readings?.map((one) => ({
      ...own(one),
      volumeMl: one.volumeMl && Math.min(one.volumeMl, 5000),
    })),
    ...{ flushes: flushes?.map(own), dressings: dressings?.map(own) },
    symptoms: symptoms ? { ...symptoms, drains: symptoms.drains?.map(own) } : null,
  }
  await receiveReport(
    {
      ...{ clinicId: 'bench', patientId, door: 'system', source: 'bench', by: null },
      ...{ key: `${patientId} ${report.id}`, body },
    },
    new Date(report.receivedAt),
  )
}

async function call(patientId: string, standing: readonly KeptFlag[], at: number): Promise<void> {
  const isPressed = standing.some(({ state, urgency }) => state === 'open' && isPressing(urgency))
  const body = {
    ...{ outcome: 'reached', spokenTo: 'patient', agreed: ['clinic-visit'] },
    closes: standing.map(({ id }) => id),
    lookAgainAt: isPressed ? new Date(at + 20 * HOUR_MS).toISOString() : null,
  }
  await recordCallback(nurse, patientId, body, `${patientId} ${at}`, new Date(at))
}

/** In the order in which one refers to the other. */
const TABLES = [
  ...[
    'Patient',
    'PatientVersion',
    'Drain',
    'CarePlan',
    'Report',
    'Reading',
    'Flush',
    'DressingChange',
    'Symptoms',
  ],
  ...['DrainSymptoms', 'Visit', 'VisitStep', 'Callback', 'StaffEvent', 'Flag', 'FlagStep'],
] as const
/** What names a row: a copy has its own. */
const OWN = new Set([
  ...[
    'id',
    'patientId',
    'drainId',
    'reportId',
    'symptomsId',
    'visitId',
    'callbackId',
    'flagId',
    'supersedesId',
  ],
  ...['corrects', 'key', 'receiptCode', 'recordNumber'],
])

async function copy(table: (typeof TABLES)[number], times: number): Promise<void> {
  await write(async (tx: Tx) => {
    const columns = await tx.$queryRawUnsafe<{ name: string }[]>(
      `SELECT "name" FROM pragma_table_info('${table}')`,
    )
    const names = columns.map(({ name }) => name)
    const value = (name: string) => {
      if (name === 'closes')
        return `replace(replace(s."closes", '","', '-' || n.i || '","'), '"]', '-' || n.i || '"]')`
      return OWN.has(name) ? `s."${name}" || '-' || n.i` : `s."${name}"`
    }
    await tx.$executeRawUnsafe(
      `WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${times})
       INSERT INTO "${table}" (${names.map((name) => `"${name}"`).join(', ')})
       SELECT ${names.map(value).join(', ')} FROM "${table}" s, n WHERE ${times} > 0`,
    )
  }, 600_000)
}
