import { setImmediate as nextTurn } from 'node:timers/promises'
import type { ImportProgress, LineFault } from '../domain/import-file.ts'
import type { Submission } from '../domain/submission.ts'
import { hashOfBody } from '../store/hashes.ts'
import {
  drainsOfPatients,
  type ImportDrain,
  type ImportPatient,
  patientsByNumbers,
} from '../store/imports.ts'
import type { Tx } from '../store/index.ts'
import { grouped } from '../store/rows.ts'
import type { Line } from './import-lines.ts'
import { timeOf } from './import-time.ts'
import { saysSomething, speaksOfDrain, type Values, valuesOf } from './import-values.ts'

/** A line that is as it is accepted: one report. What it says makes its key: said twice, it is stored once. */
export type ImportRow = { patientId: string; timeZone: string; key: string; says: Submission }
export type ImportRows = { rows: ImportRow[]; repeated: number; faults: LineFault[] }

/** What is later than this after now is no report of what was. */
const AHEAD_MS = 15 * 60_000
/** So many lines are looked at before other requests have their turn. */
const A_TURN = 200

export type Panel = { patients: Map<string, ImportPatient>; drains: Map<string, ImportDrain[]> }

/** Every line as a report of a patient of the clinic, or what is wrong with it. */
export async function rowsOf(
  tx: Tx,
  clinicId: string,
  lines: readonly Line[],
  now: Date,
  tell: (progress: ImportProgress) => void,
): Promise<ImportRows> {
  const panel = await panelOf(tx, clinicId, lines)
  const faults: LineFault[] = []
  const rows = new Map<string, ImportRow>()
  let repeated = 0
  for (const [i, line] of lines.entries()) {
    if (i % A_TURN === 0) {
      tell({ phase: 'checked', done: i, of: lines.length })
      await nextTurn()
    }
    const read = rowOf(line, panel, now.getTime())
    faults.push(...read.faults)
    if (read.row === null) continue
    if (rows.has(read.row.key)) repeated += 1
    else rows.set(read.row.key, read.row)
  }
  tell({ phase: 'checked', done: lines.length, of: lines.length })
  return { rows: [...rows.values()], repeated, faults }
}

async function panelOf(tx: Tx, clinicId: string, lines: readonly Line[]): Promise<Panel> {
  const numbers = [...new Set(lines.flatMap(({ values }) => values.record_number ?? []))]
  const patients = await patientsByNumbers(tx, clinicId, numbers)
  const drains = await drainsOfPatients(
    tx,
    patients.map(({ id }) => id),
  )
  return {
    patients: new Map(patients.map((patient) => [patient.recordNumber, patient])),
    drains: grouped(drains, ({ patientId }) => patientId),
  }
}

/** One line as a report of a patient of the panel, or what is wrong with it. */
export function rowOf(
  line: Line,
  panel: Panel,
  nowMs: number,
): { row: ImportRow | null; faults: LineFault[] } {
  const { values: given } = line
  const { values, faults } = valuesOf(line)
  const fault = (column: LineFault['column'], value: string | undefined, message: string): null => {
    faults.push({ line: line.line, column, value: value?.slice(0, 100) ?? null, message })
    return null
  }
  if (!saysSomething(line))
    fault(null, undefined, 'says nothing; accepted: a line with at least one value besides whose and when')

  const patient = given.record_number ? panel.patients.get(given.record_number) : undefined
  if (given.record_number === undefined)
    fault('record_number', undefined, 'is missing; accepted: a record number of this clinic')
  else if (!patient)
    fault('record_number', given.record_number, 'names no patient of this clinic; accepted: a record number')

  const drains = patient ? (panel.drains.get(patient.id) ?? []) : []
  const found = patient && given.drain !== undefined ? drainOf(given.drain, drains) : null
  if (found && 'why' in found) fault('drain', given.drain, found.why)
  if (patient && given.drain === undefined && speaksOfDrain(line))
    fault('drain', undefined, `is missing, though the line speaks of one; ${acceptedDrains(drains)}`)
  const drain = found && 'id' in found ? found : null

  if (given.at === undefined) fault('at', undefined, 'is missing; accepted: 2026-03-02 08:05')
  // Without a patient the form of a time can be told all the same, by any zone.
  const time = given.at === undefined ? null : timeOf(given.at, patient?.timeZone ?? 'UTC')
  if (time && 'why' in time) fault('at', given.at, time.why)
  const ms = time && 'ms' in time ? time.ms : null
  if (ms !== null && patient && ms > nowMs + AHEAD_MS)
    fault('at', given.at, 'is later than now; accepted: a time that has passed')
  if (ms !== null && drain && ms < Date.parse(drain.placedAt))
    fault('at', given.at, `is before this drain was placed; accepted: ${drain.placedAt} or later`)

  if (faults.length > 0 || !patient || ms === null) return { row: null, faults }
  const says = saysOf(values, drain?.id ?? null, new Date(ms).toISOString())
  const { id: patientId, timeZone } = patient
  return { row: { patientId, timeZone, key: hashOfBody({ patientId, says }), says }, faults }
}

const acceptedDrains = (drains: readonly ImportDrain[]) =>
  `accepted: ${drains.map(({ label }, i) => `${i + 1} (${label})`).join(', ')}`

/** A drain by its plain name, in capitals or not, or by its number in the order of enrolment. */
export function drainOf(given: string, drains: readonly ImportDrain[]): ImportDrain | { why: string } {
  const named = drains.filter(({ label }) => label.toLowerCase() === given.toLowerCase())
  if (named.length > 1)
    return { why: `is the name of several drains of this patient; ${acceptedDrains(drains)}` }
  const [drain = /^\d{1,2}$/.test(given) ? drains[Number(given) - 1] : undefined] = named
  return drain ?? { why: `names no drain of this patient; ${acceptedDrains(drains)}` }
}

function saysOf(values: Values, drain: string | null, at: string): Submission {
  const { volumeMl, total, confirmed, appearance, flushMl, ease, changed, found, skin } = values
  const { temperatureC, chills, pain, general, position, leak, draining, note } = values
  const isSaid = (...list: unknown[]) => list.some((value) => value !== undefined)
  const ofDrain = drain === null ? null : { drain, at }
  return {
    ...(ofDrain && volumeMl !== undefined
      ? { readings: [{ ...ofDrain, volumeMl, appearance, total, confirmed }] }
      : {}),
    ...(ofDrain && isSaid(flushMl, ease)
      ? { flushes: [{ ...ofDrain, volumeMl: flushMl ?? null, ease }] }
      : {}),
    ...(ofDrain && isSaid(changed, found, skin) ? { dressings: [{ ...ofDrain, found, skin, changed }] } : {}),
    ...(isSaid(temperatureC, chills, pain, general, position, leak, draining)
      ? {
          symptoms: {
            at,
            temperatureC,
            chills,
            pain,
            general,
            drains:
              drain !== null && isSaid(position, leak, draining) ? [{ drain, position, leak, draining }] : [],
          },
        }
      : {}),
    ...(note === undefined ? {} : { note }),
  }
}
