import { createHash } from 'node:crypto'
import { setImmediate as nextTurn } from 'node:timers/promises'
import { recordAccess } from '../access/record.ts'
import { endForDeath } from '../assessment/end-follow-up.ts'
import { now as clock } from '../clock.ts'
import type { LineFault } from '../domain/import-file.ts'
import { OutsideEventKind } from '../domain/outside-event.ts'
import {
  type EventColumnName,
  type EventFileOutcome,
  eventColumns,
  whyNotAt,
} from '../domain/outside-event-file.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { isInFollowUp } from '../store/follow-up.ts'
import { addImportedFile, drainsOfPatients, fileTakenAt, type ImportDrain } from '../store/imports.ts'
import { read, type Tx, write } from '../store/index.ts'
import {
  addOutsideEvents,
  type EventPatient,
  eventPatients,
  knownEvents,
  type NewEvent,
  sameEvent,
} from '../store/outside-events.ts'
import { grouped, newId, stored } from '../store/rows.ts'
import { type LineOf, linesWith } from './import-lines.ts'
import { drainOf } from './import-rows.ts'
import { timeOf } from './import-time.ts'

type Line = LineOf<EventColumnName>
type Told = Pick<NewEvent, 'patientId' | 'drainId' | 'kind' | 'at' | 'note'>
type Panel = { patients: Map<string, EventPatient>; drains: Map<string, ImportDrain[]> }

const NOTE_MAX = 2000
/** So many lines are looked at before other requests have their turn. */
const A_TURN = 200
/** A whole file with its entries in the access record, on a slow machine. */
const TIMEOUT_MS = 5 * 60_000

/**
 * Takes a file of outside events (docs/record-format.md): looks at every line, and stores all or, while one line is at
 * fault, none. With `dryRun` nothing is stored. What is on record already, by whichever way it came, adds nothing. A death ends
 * follow-up in the same transaction, if it goes on.
 */
export async function importOutsideEvents(
  staff: StaffMember,
  { name, bytes, dryRun }: { name: string; bytes: Uint8Array; dryRun: boolean },
  now: Date = clock(),
): Promise<EventFileOutcome> {
  const { clinicId } = staff
  const { lines, faults: broken } = await linesWith(eventColumns, bytes)
  const panel = await read((tx) => panelOf(tx, clinicId, lines))
  const faults: LineFault[] = [...broken]
  const told = new Map<string, Told>()
  let repeated = 0
  for (const [i, line] of lines.entries()) {
    if (i % A_TURN === 0) await nextTurn()
    const found = eventOf(line, panel, now.getTime())
    faults.push(...found.faults)
    if (found.told === null) continue
    const mark = sameEvent(found.told)
    if (told.has(mark)) repeated += 1
    else told.set(mark, found.told)
  }
  faults.sort((a, b) => a.line - b.line)
  const outcome = {
    ...{ dryRun, lines: lines.length, patients: 0, events: 0, ends: 0, repeated, faults },
    takenAt: null,
  }
  if (faults.length > 0) return outcome

  const file = { name, hash: createHash('sha256').update(bytes).digest('hex'), lines: lines.length }
  const work = (tx: Tx) => take(tx, staff, file, [...told.values()], dryRun, now)
  const { ended, ...done } = dryRun ? await read(work) : await write(work, TIMEOUT_MS)
  if (!dryRun) for (const patientId of ended) tell(clinicId, { patientId, kind: 'follow-up' })
  return { ...outcome, ...done, ends: ended.length, repeated: repeated + told.size - done.events }
}

async function take(
  tx: Tx,
  staff: StaffMember,
  file: { name: string; hash: string; lines: number },
  told: readonly Told[],
  dryRun: boolean,
  now: Date,
): Promise<{ events: number; patients: number; ended: string[]; takenAt: string | null }> {
  const { clinicId } = staff
  const takenAt = await fileTakenAt(tx, clinicId, file.hash)
  if (takenAt !== null) return { events: 0, patients: 0, ended: [], takenAt }
  const known = await knownEvents(tx, [...new Set(told.map(({ patientId }) => patientId))])
  const fresh = told.filter((event) => !known.has(sameEvent(event)))
  const patients = [...grouped(fresh, ({ patientId }) => patientId)]
  const ended: string[] = []
  for (const [patientId, own] of patients)
    if (own.some(({ kind }) => kind === 'death') && (await isInFollowUp(tx, patientId))) ended.push(patientId)
  const done = { events: fresh.length, patients: patients.length, ended, takenAt: null }
  if (dryRun) return done

  const recorded = { recordedAt: stored(now), recordedBy: staff.id }
  const source = newId()
  await addOutsideEvents(
    tx,
    fresh.map((event) => ({ id: newId(), clinicId, source, ...event, ...recorded })),
  )
  const note = (patientId: string | null, what: string, action = 'record-outside-event') =>
    recordAccess(tx, {
      clinicId,
      at: recorded.recordedAt,
      staffId: staff.id,
      actor: staff.name,
      action,
      patientId,
      what,
    })
  for (const [patientId, own] of patients) await note(patientId, `${own.length} outside events from a file`)
  for (const patientId of ended) {
    await endForDeath(tx, { clinicId, patientId, ...recorded })
    await note(patientId, 'follow-up ended: died, by an outside event from a file', 'end-follow-up')
  }
  await note(null, `took in a file of outside events (${file.hash.slice(0, 12)}): ${fresh.length} events`)
  await addImportedFile(tx, {
    id: source,
    clinicId,
    fileHash: file.hash,
    name: file.name,
    lines: file.lines,
    added: fresh.length,
    ...recorded,
  })
  return done
}

async function panelOf(tx: Tx, clinicId: string, lines: readonly Line[]): Promise<Panel> {
  const numbers = [...new Set(lines.flatMap(({ values }) => values.record_number ?? []))]
  const { rows: patients } = await eventPatients(tx, clinicId, numbers)
  const drains = await drainsOfPatients(
    tx,
    patients.map(({ id }) => id),
  )
  return {
    patients: new Map(patients.map((patient) => [patient.recordNumber, patient])),
    drains: grouped(drains, ({ patientId }) => patientId),
  }
}

/** One line as an event of a patient of the clinic, or all that is wrong with it. */
function eventOf(
  { line, values }: Line,
  panel: Panel,
  nowMs: number,
): { told: Told | null; faults: LineFault[] } {
  const faults: LineFault[] = []
  const fault = (column: EventColumnName, message: string) => {
    faults.push({ line, column, value: values[column]?.slice(0, 100) ?? null, message })
  }
  const number = values.record_number
  const patient = number === undefined ? undefined : panel.patients.get(number)
  if (number === undefined) fault('record_number', 'is missing; accepted: a record number of this clinic')
  else if (!patient) fault('record_number', 'names no patient of this clinic; accepted: a record number')

  const kind = OutsideEventKind.safeParse(values.kind?.toLowerCase())
  if (!kind.success)
    fault(
      'kind',
      `${values.kind === undefined ? 'is missing; ' : ''}accepted: ${OutsideEventKind.options.join(', ')}`,
    )

  const drains = patient ? (panel.drains.get(patient.id) ?? []) : []
  const named = patient && values.drain !== undefined ? drainOf(values.drain, drains) : null
  if (named && 'why' in named) fault('drain', named.why)
  const drain = named && 'id' in named ? named : null

  const time = values.at === undefined ? null : timeOf(values.at, patient?.timeZone ?? 'UTC')
  if (time === null) fault('at', 'is missing; accepted: 2026-03-02 08:05')
  else if ('why' in time) fault('at', time.why)
  const ms = time && 'ms' in time ? time.ms : null
  const placedAt = drain?.placedAt ?? null
  const why =
    ms !== null && patient ? whyNotAt(ms, { enrolledAt: patient.enrolledAt, placedAt, nowMs }) : null
  if (why !== null) fault('at', why)
  if ((values.note?.length ?? 0) > NOTE_MAX) fault('note', `accepted: at most ${NOTE_MAX} characters`)

  if (faults.length > 0 || !patient || !kind.success || ms === null) return { told: null, faults }
  return {
    told: {
      patientId: patient.id,
      drainId: drain?.id ?? null,
      kind: kind.data,
      at: new Date(ms).toISOString(),
      note: values.note ?? null,
    },
    faults,
  }
}
