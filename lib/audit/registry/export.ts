import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import {
  FEW_PATIENTS,
  LEFT_OUT,
  RegistryFile,
  registryColumns,
  UNDER_FEW,
  WITHHELD,
} from '../../domain/registry.ts'
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
  registryLeftOut,
  registryPatients,
} from '../../store/registry-rows.ts'
import { flagItemsOf } from '../../store/review-items.ts'
import { reviewsOf } from '../../store/reviews.ts'
import { grouped, stored } from '../../store/rows.ts'
import { parse } from '../week/parse.ts'
import { endOf, tellingEnds } from './drain-end.ts'
import { ageGroup, countText, csvOf, daysFrom, hoursText, newStudyId, shuffled } from './mask.ts'
import { type FlagCell, kindBeside, type Mask, maskOf, named, pairOf, WHOLE } from './naming.ts'
import { personTime, toldTime } from './person-time.ts'

/** Patients that are read at a time: the server answers others between. */
const AT_A_TIME = 200

type Row = (string | number)[]
export type RegistryText = { file: RegistryFile; text: string; rows: number }

/**
 * A file without anything that names a person, of all patients of the clinic but those who withdrew consent: none of the identifiers that 45 CFR
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
  const rows = file === 'dictionary.csv' ? dictionary() : await rowsOfFile(clinicId, file, now)
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
      what: `took ${file} for a registry: ${rows.length} rows without identifiers, of all patients of the clinic who did not withdraw consent`,
    }),
  )
  return { file, text: csvOf(header, rows), rows: rows.length }
}

const dictionary = (): Row[] =>
  Object.entries(registryColumns).flatMap(([file, columns]) =>
    columns.map(({ name, unit, values, meaning }) => [file, name, unit, values, meaning]),
  )

async function rowsOfFile(clinicId: string, file: keyof typeof registryColumns, now: Date): Promise<Row[]> {
  const { rows: patients } = await read((tx) => registryPatients(tx, clinicId))
  if (patients.length < FEW_PATIENTS)
    throw new Refusal('conflict', `The clinic has fewer than ${FEW_PATIENTS} patients: nothing is exported.`)
  const { mask, flagCells } = await read((tx) => maskOf(tx, clinicId, patients, stored(now)))
  if (file === 'counts.csv')
    return [...crossed(flagCells, mask), ...(await totalsOf(clinicId, patients, mask, now))]
  const rows = await inParts(shuffled(patients), (part) =>
    read((tx) => partOf(tx, clinicId, file, part, mask)),
  )
  return file === 'drains.csv' ? withEndsMasked(rows) : rows
}

/** Reads what belongs to some, part by part. */
async function inParts<T, R>(all: readonly T[], readPart: (part: T[]) => Promise<R[]>): Promise<R[]> {
  const found: R[] = []
  for (let i = 0; i < all.length; i += AT_A_TIME) {
    found.push(...(await readPart(all.slice(i, i + AT_A_TIME))))
    await new Promise((resolve) => setImmediate(resolve))
  }
  return found
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
  const { placedAt, enrolledAt, exchanges, readings } = drain
  const from = [placedAt, enrolledAt].sort()[1] ?? placedAt
  const { until, ended } = endOf(drain, at)
  return [...begins, named(kinds, drain.kind), Math.max(0, daysFrom(from, until)), ended, exchanges, readings]
}

const columnOf = (name: string) => registryColumns['drains.csv'].findIndex((column) => column.name === name)
const ENDED = columnOf('ended')
const DAYS = columnOf('days_followed')

/** Why a drain is followed no longer, and for how long it was, as far as they may be told. */
function withEndsMasked(rows: readonly Row[]): Row[] {
  const tell = tellingEnds(rows.map((row) => ({ patient: String(row[0]), ended: String(row[ENDED]) })))
  return rows.map((row) => {
    const { ended, isTold } = tell(String(row[ENDED]))
    return row.map((value, i) => (i === ENDED ? ended : i === DAYS && !isTold ? '' : value))
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

const kindText = (kind: string) => (kind === WHOLE ? 'whole patient' : kind)

/** Every kind and finding, whether there is one or not: what is missing tells as much as a small number. */
function crossed(cells: readonly FlagCell[], mask: Mask): Row[] {
  const found = new Map(cells.map((cell) => [pairOf(cell.kind, cell.code), cell]))
  return [WHOLE, ...DrainKind.options].flatMap((kind) =>
    FindingCode.options.map((code): Row => {
      const { patients = 0, flags = 0 } = found.get(pairOf(kind, code)) ?? {}
      const isNamed = mask.codes.has(code) && mask.besideCode.has(pairOf(kind, code))
      return [
        ...[kindText(kind), code],
        ...[patients, flags].map((count) => countText(count, patients, isNamed)),
        ...['', ''],
      ]
    }),
  )
}

/** Of each kind and of the whole patient how many patients there are and how long they were at risk; and who is left out. */
async function totalsOf(
  clinicId: string,
  patients: readonly RegistryPatient[],
  mask: Mask,
  now: Date,
): Promise<Row[]> {
  const ids = patients.map(({ id }) => id)
  const drains = await inParts(ids, async (part) => (await read((tx) => registryDrains(tx, part))).rows)
  const times = await read((tx) => personTime(tx, clinicId, new Set(ids), now))
  const leftOut = await read((tx) => registryLeftOut(tx, clinicId))
  const told = toldTime(drains, mask)
  const totals = [WHOLE, ...DrainKind.options].map((kind): Row => {
    const { days, silent } = times.get(kind) ?? { days: 0, silent: 0 }
    const own = drains.filter((drain) => kind === WHOLE || drain.kind === kind)
    const count = new Set(own.map(({ patientId }) => patientId)).size
    return [
      ...[kindText(kind), '', countText(count, count, mask.kinds.has(kind)), ''],
      ...[days, silent].map((one) => (mask.kinds.has(kind) && told.has(kind) ? one : WITHHELD)),
    ]
  })
  return [...totals, [LEFT_OUT, '', leftOut < FEW_PATIENTS ? UNDER_FEW : leftOut, '', '', '']]
}
