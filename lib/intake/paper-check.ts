import { UNCONFIRMED_MAX_ML } from '../domain/limits.ts'
import { type PaperLine, readRows } from '../domain/paper-rows.ts'
import {
  cellOfRow,
  isEmptyRow,
  type PaperAsks,
  type PaperFault,
  type PaperSheet,
  paperColumns,
} from '../domain/paper-sheet.ts'
import { standingReports } from '../domain/standing-reports.ts'
import { drainsOfPatients, patientsByNumbers } from '../store/imports.ts'
import type { Tx } from '../store/index.ts'
import type { Patient } from '../store/patients.ts'
import type { Composed } from '../store/record.ts'
import { type ImportRow, type Panel, rowOf } from './import-rows.ts'

/** A row that is as it is accepted. */
export type CheckedRow = { row: number; said: ImportRow }
export type Checked = { rows: number; good: CheckedRow[]; asks: PaperAsks; faults: PaperFault[] }

/**
 * Checks every row of a sheet: that it is of this patient, that each value is as accepted (as in a file of reports),
 * that it is not said twice, here or in the record.
 */
export async function checkSheet(tx: Tx, composed: Composed, sheet: PaperSheet, now: Date): Promise<Checked> {
  const { patient } = composed
  const read = readRows(sheet.rows, sheet.answers)
  const faults = [...read.faults, ...(await othersNamed(tx, patient, sheet))]
  const panel = await panelOf(tx, patient)
  const broken = new Set(read.faults.map(({ row }) => row))
  const good: CheckedRow[] = []
  const seen = new Map<string, number>()
  for (const line of read.lines) {
    const waits = waitsOf(line, sheet.rows[line.row - 1] ?? [])
    const filled = { ...line, values: { ...waits.meanwhile, ...line.values } }
    const { row, faults: found } = rowOf(lineOf(filled, patient, panel), panel, now.getTime())
    const own = found.map((fault) => inColumn(line.row, fault)).filter((fault) => !isSaid(fault, read.faults))
    faults.push(...(waits.date ? own.filter(({ column }) => column !== 'date') : own))
    // What waits for an answer cannot be compared yet; it is not stored before it is answered.
    if (row === null || broken.has(line.row) || waits.any) continue
    const before = seen.get(row.key)
    if (before !== undefined)
      faults.push(whole(line.row, `says the same as row ${before}; remove one of them, or correct the time`))
    else if (isKnown(composed, row.says))
      faults.push(whole(line.row, 'is in the record already; remove the row'))
    else good.push({ row: line.row, said: row })
    seen.set(row.key, before ?? line.row)
  }
  faults.sort((a, b) => a.row - b.row)
  return { rows: read.lines.length, good, asks: read.asks, faults }
}

export const asks = ({ volumeUnit, temperatureUnit, dateOrder }: PaperAsks): boolean =>
  volumeUnit || temperatureUnit || dateOrder

/** What of a row waits for an answer, and what stands for it meanwhile, so that the rest of the row is checked. */
function waitsOf({ values }: PaperLine, cells: readonly string[]) {
  const volume = cellOfRow(cells, 'ml') !== '' && values.volume_ml === undefined
  const temperature = cellOfRow(cells, 'temperature') !== '' && values.temperature_c === undefined
  const date = values.at === undefined
  const meanwhile: PaperLine['values'] = {
    ...(volume ? { volume_ml: 'unknown' } : {}),
    ...(temperature ? { temperature_c: '37' } : {}),
  }
  return { any: volume || temperature || date, date, meanwhile }
}

const whole = (row: number, message: string): PaperFault => ({ row, column: null, value: null, message })

async function panelOf(tx: Tx, { id, recordNumber, timeZone }: Patient): Promise<Panel> {
  const drains = await drainsOfPatients(tx, [id])
  return {
    patients: new Map([[recordNumber, { id, recordNumber, timeZone }]]),
    drains: new Map([[id, drains]]),
  }
}

/** The row as a line of a file of reports; where the patient has one drain it need not be named. */
function lineOf({ row, values }: PaperLine, { id, recordNumber }: Patient, { drains }: Panel) {
  const own = drains.get(id) ?? []
  const only = own.length === 1 && values.drain === undefined && saysOfDrain(values) ? { drain: '1' } : {}
  return { line: row, values: { ...values, ...only, record_number: recordNumber } }
}

const saysOfDrain = (values: PaperLine['values']) =>
  (['volume_ml', 'flush_ml', 'flush_ease', 'dressing_changed', 'dressing_found', 'skin'] as const).some(
    (column) => values[column] !== undefined,
  )

function inColumn(
  row: number,
  { column, value, message }: { column: string | null; value: string | null; message: string },
): PaperFault {
  const known = column === null ? undefined : paperColumns.find(({ as }) => as === column)
  const isLarge = message.includes('"confirmed"')
  return {
    row,
    column: known?.name ?? null,
    value,
    message: isLarge
      ? `is over ${UNCONFIRMED_MAX_ML} mL; accepted: such a reading by itself, as a report by phone, where it is asked again`
      : message
          .replaceAll('volume_ml', 'mL')
          .replace('a line with at least one value besides whose and when', 'a value besides the time'),
  }
}

/** A time that cannot be read has its fault already. */
const isSaid = ({ row, column }: PaperFault, said: readonly PaperFault[]) =>
  said.some(
    (one) => one.row === row && (one.column === column || (column === 'date' && one.column === 'time')),
  )

/** Rows that name somebody else: by the patient column, or by a record number that stands anywhere as a word of its own. */
async function othersNamed(tx: Tx, patient: Patient, { rows }: PaperSheet): Promise<PaperFault[]> {
  const columns = ['who', 'drain', 'note'] as const
  const numbers = rows.flatMap((row) => columns.map((column) => cellOfRow(row, column))).filter(Boolean)
  const others = (await patientsByNumbers(tx, patient.clinicId, [...new Set(numbers)])).filter(
    ({ id }) => id !== patient.id,
  )
  const isOther = new Set(others.map(({ recordNumber }) => recordNumber))
  const own = [
    plain(patient.name),
    plain(patient.recordNumber),
    plain(`${patient.name} ${patient.recordNumber}`),
  ]
  return rows.flatMap((row, i): PaperFault[] =>
    isEmptyRow(row)
      ? []
      : columns.flatMap((column): PaperFault[] => {
          const value = cellOfRow(row, column)
          const isWrong =
            isOther.has(value) || (column === 'who' && value !== '' && !own.includes(plain(value)))
          return isWrong
            ? [{ row: i + 1, column, value: value.slice(0, 100), message: notThisOne(patient) }]
            : []
        }),
  )
}

const notThisOne = ({ name, recordNumber }: Patient) =>
  `is somebody else: this sheet is for ${name}, ${recordNumber}, and nothing of it is stored; accepted: that name or number, or nothing`

/** A name in any order of its words, without marks and what stands in brackets. */
const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/\(.*?\)/g, ' ')
    .split(/[^\p{L}\p{N}-]+/u)
    .filter(Boolean)
    .toSorted()
    .join(' ')

/** Whether the record has this reading or flush already: the same drain, minute and volume. */
function isKnown({ record }: Composed, { readings = [], flushes = [] }: ImportRow['says']): boolean {
  const minute = (at: string) => Math.floor(Date.parse(at) / 60_000)
  const standing = standingReports(record.reports)
  const has = (
    kept: readonly { drain: string; at: string; volumeMl?: number | null | undefined }[],
    said: { drain: string; at: string; volumeMl?: number | null | undefined },
  ) =>
    kept.some(
      ({ drain, at, volumeMl }) =>
        drain === said.drain &&
        minute(at) === minute(said.at) &&
        (volumeMl ?? null) === (said.volumeMl ?? null),
    )
  const read = standing.flatMap((report) => report.readings ?? [])
  const flushed = standing.flatMap((report) => report.flushes ?? [])
  return readings.some((one) => has(read, one)) || flushes.some((one) => has(flushed, one))
}
