import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import { FEW_PATIENTS, RegistryFile, registryColumns, WITHHELD } from '../../domain/registry.ts'
import { standingOf } from '../../domain/review-page.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { DrainKind, FindingCode } from '../../domain/words.ts'
import { read, type Tx, write } from '../../store/index.ts'
import {
  type RegistryDrain,
  type RegistryEvent,
  type RegistryFlag,
  type RegistryPatient,
  registryCounts,
  registryCrossed,
  registryDrains,
  registryEvents,
  registryFlags,
  registryPatients,
} from '../../store/registry-rows.ts'
import { flagItemsOf } from '../../store/review-items.ts'
import { reviewsOf } from '../../store/reviews.ts'
import { grouped, stored } from '../../store/rows.ts'
import { parse } from '../week/parse.ts'
import {
  ageGroup,
  countText,
  csvOf,
  daysFrom,
  hoursText,
  named,
  newStudyId,
  shuffled,
  tallyBy,
} from './mask.ts'

/** Patients that are read at a time: the server answers others between. */
const AT_A_TIME = 200

type Row = (string | number)[]
export type RegistryText = { file: RegistryFile; text: string; rows: number }

/**
 * A file without anything that names a person, of all patients of the clinic: none of the identifiers that 45 CFR
 * 164.514(b)(2) lists, no free text, days since placement for dates. Who took it stands in the access record.
 * @throws Refusal invalid-input, conflict (too few patients)
 */
export async function exportRegistry(
  staff: StaffMember,
  wanted: unknown,
  now: Date = clock(),
): Promise<RegistryText> {
  const file = parse('file', RegistryFile, wanted)
  const { clinicId } = staff
  const rows = file === 'dictionary.csv' ? dictionary() : await rowsOfFile(clinicId, file, stored(now))
  const header =
    file === 'dictionary.csv'
      ? ['file', 'column', 'unit', 'values', 'meaning']
      : registryColumns[file].map(({ name }) => name)
  await write((tx) =>
    recordAccess(tx, {
      clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      role: staff.role,
      action: 'export-registry',
      patientId: null,
      what: `took ${file} for a registry: ${rows.length} rows without identifiers, of all patients of the clinic`,
    }),
  )
  return { file, text: csvOf(header, rows), rows: rows.length }
}

const dictionary = (): Row[] =>
  Object.entries(registryColumns).flatMap(([file, columns]) =>
    columns.map(({ name, unit, values, meaning }) => [file, name, unit, values, meaning]),
  )

async function rowsOfFile(clinicId: string, file: keyof typeof registryColumns, at: string): Promise<Row[]> {
  const { rows: patients } = await read((tx) => registryPatients(tx, clinicId))
  if (patients.length < FEW_PATIENTS)
    throw new Refusal('conflict', `The clinic has fewer than ${FEW_PATIENTS} patients: nothing is exported.`)
  if (file === 'counts.csv') return crossed(clinicId)
  const counts = await read((tx) => registryCounts(tx, clinicId))
  const ages = tallyBy(patients, ageGroup)
  const mask: Mask = {
    at,
    kind: (kind) => (kind === null ? '' : named(counts.kind, kind)),
    code: (code) => named(counts.code, code),
    event: (event) => named(counts.event, event),
    age: (patient) => named(ages, ageGroup(patient)),
  }
  const rows: Row[] = []
  const mixed = shuffled(patients)
  for (let i = 0; i < mixed.length; i += AT_A_TIME) {
    rows.push(...(await read((tx) => partOf(tx, clinicId, file, mixed.slice(i, i + AT_A_TIME), mask))))
    await new Promise((resolve) => setImmediate(resolve))
  }
  return file === 'drains.csv' ? withEndsMasked(rows) : rows
}

type Mask = {
  at: string
  kind: (kind: string | null) => string
  code: (code: string) => string
  event: (event: string) => string
  age: (patient: RegistryPatient) => string
}

async function partOf(
  tx: Tx,
  clinicId: string,
  file: 'drains.csv' | 'flags.csv' | 'events.csv',
  patients: readonly RegistryPatient[],
  mask: Mask,
): Promise<Row[]> {
  const ids = patients.map(({ id }) => id)
  if (file === 'drains.csv') {
    const drains = grouped((await registryDrains(tx, ids)).rows, ({ patientId }) => patientId)
    return rowsBy(patients, drains, (patient, study, own) =>
      own
        .toSorted((a, b) => a.ordinal - b.ordinal)
        .map((drain, i) => drainRow(drain, [study, i + 1, mask.age(patient)], mask)),
    )
  }
  if (file === 'events.csv') {
    const events = grouped((await registryEvents(tx, ids)).rows, ({ patientId }) => patientId)
    return rowsBy(patients, events, (patient, study, own) =>
      own.map((event) => eventRow(event, patient, study, mask)),
    )
  }
  const { rows: all } = await registryFlags(tx, ids)
  const verdicts = await verdictsOf(tx, clinicId, all)
  const flags = grouped(all, ({ patientId }) => patientId)
  return rowsBy(patients, flags, (patient, study, own) =>
    own.map((flag) => flagRow(flag, patient, study, verdicts.get(flag.id) ?? '', mask)),
  )
}

const rowsBy = <T>(
  patients: readonly RegistryPatient[],
  own: ReadonlyMap<string, readonly T[]>,
  make: (patient: RegistryPatient, study: string, own: readonly T[]) => Row[],
): Row[] => patients.flatMap((patient) => make(patient, newStudyId(), own.get(patient.id) ?? []))

function drainRow(drain: RegistryDrain, begins: Row, { at, kind }: Mask): Row {
  const { placedAt, enrolledAt, removedAt, tubeAt, followUpEndedAt, followUpEnd, exchanges, readings } = drain
  const isOut = removedAt !== null && (tubeAt === null || removedAt > tubeAt)
  const from = [placedAt, enrolledAt].sort()[1] ?? placedAt
  const until = [isOut ? removedAt : at, followUpEndedAt ?? at, at].sort()[0] ?? at
  const ended = isOut ? 'drain-removed' : followUpEndedAt === null ? 'followed' : (followUpEnd ?? WITHHELD)
  return [...begins, kind(drain.kind), Math.max(0, daysFrom(from, until)), ended, exchanges, readings]
}

const ENDED = registryColumns['drains.csv'].findIndex(({ name }) => name === 'ended')

/** Why a drain is followed no longer is withheld where few patients share it. */
function withEndsMasked(rows: readonly Row[]): Row[] {
  const first = [...new Map(rows.map((row) => [`${row[0]} ${row[ENDED]}`, row])).values()]
  const counts = tallyBy(first, (row) => String(row[ENDED]))
  return rows.map((row) => row.map((value, i) => (i === ENDED ? named(counts, String(value)) : value)))
}

const eventRow = (
  { event, kind, placedAt, at }: RegistryEvent,
  patient: RegistryPatient,
  study: string,
  mask: Mask,
) => [study, mask.age(patient), mask.kind(kind), mask.event(event), daysFrom(placedAt ?? patient.firstAt, at)]

function flagRow(
  flag: RegistryFlag,
  patient: RegistryPatient,
  study: string,
  verdict: string,
  mask: Mask,
): Row {
  const { kind, placedAt, code, nature, urgency, state, openedAt, attemptAt, reachedAt } = flag
  return [
    ...[study, mask.age(patient), mask.kind(kind), mask.code(code), nature, urgency],
    daysFrom(placedAt ?? patient.firstAt, openedAt),
    ...[hoursText(openedAt, attemptAt), hoursText(openedAt, reachedAt), state, verdict],
  ]
}

/** The verdict that holds, by flag. */
async function verdictsOf(
  tx: Tx,
  clinicId: string,
  flags: readonly RegistryFlag[],
): Promise<Map<string, string>> {
  const { rows: items } = await flagItemsOf(
    tx,
    clinicId,
    flags.map(({ id }) => id),
  )
  const ids = items.map(({ id }) => id)
  const reviews = grouped((await reviewsOf(tx, ids)).rows, ({ itemId }) => itemId)
  return new Map(
    items.flatMap(({ id, flagId, twice }) => {
      const holds = standingOf(twice, reviews.get(id) ?? []).counts
      return holds && flagId !== null ? [[flagId, holds.verdict] as const] : []
    }),
  )
}

/** Every kind and finding, whether there is one or not: what is missing tells as much as a small number. */
async function crossed(clinicId: string): Promise<Row[]> {
  const { rows } = await read((tx) => registryCrossed(tx, clinicId))
  const found = new Map(rows.map((row) => [`${row.kind ?? ''} ${row.code}`, row]))
  return ['', ...DrainKind.options].flatMap((kind) =>
    FindingCode.options.map((code): Row => {
      const { patients = 0, flags = 0 } = found.get(`${kind} ${code}`) ?? {}
      return [
        kind === '' ? 'whole patient' : kind,
        code,
        countText(patients),
        countText(flags, patients < FEW_PATIENTS),
      ]
    }),
  )
}
