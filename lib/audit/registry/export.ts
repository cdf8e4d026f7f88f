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
  nameable,
  newStudyId,
  shuffled,
  tallyBy,
} from './mask.ts'
import { type FlagCell, kindBeside, type Mask, maskOf, named, pairOf, WHOLE } from './naming.ts'

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
  const { mask, flagCells } = await read((tx) => maskOf(tx, clinicId, patients, at))
  if (file === 'counts.csv') return crossed(flagCells, mask)
  const rows: Row[] = []
  const mixed = shuffled(patients)
  for (let i = 0; i < mixed.length; i += AT_A_TIME) {
    rows.push(...(await read((tx) => partOf(tx, clinicId, file, mixed.slice(i, i + AT_A_TIME), mask))))
    await new Promise((resolve) => setImmediate(resolve))
  }
  return file === 'drains.csv' ? withEndsMasked(rows) : rows
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
        .map((drain, i) => drainRow(drain, [study, i + 1, named(mask.ages, ageGroup(patient))], mask)),
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

function drainRow(drain: RegistryDrain, begins: Row, { at, kinds }: Mask): Row {
  const { placedAt, enrolledAt, removedAt, tubeAt, followUpEndedAt, followUpEnd, exchanges, readings } = drain
  const isOut = removedAt !== null && (tubeAt === null || removedAt > tubeAt)
  const from = [placedAt, enrolledAt].sort()[1] ?? placedAt
  const until = [isOut ? removedAt : at, followUpEndedAt ?? at, at].sort()[0] ?? at
  const ended = isOut ? 'drain-removed' : followUpEndedAt === null ? FOLLOWED : (followUpEnd ?? WITHHELD)
  return [...begins, named(kinds, drain.kind), Math.max(0, daysFrom(from, until)), ended, exchanges, readings]
}

const columnOf = (name: string) => registryColumns['drains.csv'].findIndex((column) => column.name === name)
const ENDED = columnOf('ended')
const DAYS = columnOf('days_followed')
const FOLLOWED = 'followed'

/**
 * Why a drain is followed no longer is withheld where few patients share it. How long it was followed is told of those that are not any
 * more: of the others it would be the days up to the export, and whoever knows that day would know when it was placed.
 */
function withEndsMasked(rows: readonly Row[]): Row[] {
  const first = [...new Map(rows.map((row) => [`${row[0]} ${row[ENDED]}`, row])).values()]
  const ends = nameable(tallyBy(first, (row) => String(row[ENDED])))
  return rows.map((row) => {
    const end = named(ends, String(row[ENDED]))
    return row.map((value, i) =>
      i === ENDED ? end : i === DAYS && (end === FOLLOWED || end === WITHHELD) ? '' : value,
    )
  })
}

const eventRow = (
  { event, kind, placedAt, at }: RegistryEvent,
  patient: RegistryPatient,
  study: string,
  mask: Mask,
) => [
  study,
  named(mask.ages, ageGroup(patient)),
  kindBeside(mask.besideEvent, kind, event),
  named(mask.events, event),
  daysFrom(placedAt ?? patient.firstAt, at),
]

function flagRow(
  flag: RegistryFlag,
  patient: RegistryPatient,
  study: string,
  verdict: string,
  mask: Mask,
): Row {
  const { kind, placedAt, code, nature, urgency, state, openedAt, attemptAt, reachedAt } = flag
  return [
    ...[
      study,
      named(mask.ages, ageGroup(patient)),
      kindBeside(mask.besideCode, kind, code),
      named(mask.codes, code),
    ],
    ...[nature, urgency],
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
function crossed(cells: readonly FlagCell[], mask: Mask): Row[] {
  const found = new Map(cells.map((cell) => [pairOf(cell.kind, cell.code), cell]))
  return [WHOLE, ...DrainKind.options].flatMap((kind) =>
    FindingCode.options.map((code): Row => {
      const { patients = 0, flags = 0 } = found.get(pairOf(kind, code)) ?? {}
      const isNamed = mask.codes.has(code) && mask.besideCode.has(pairOf(kind, code))
      return [
        kind === WHOLE ? 'whole patient' : kind,
        code,
        ...[patients, flags].map((count) => countText(count, patients, isNamed)),
      ]
    }),
  )
}
