import { CsvError, parse as parseCsv } from 'csv-parse/sync'
import { now as clock } from '../clock.ts'
import { DischargeFile, FILE_MAX_LINES, type FileOutcome, NewDischarge } from '../domain/discharge.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { isListed } from '../store/discharges.ts'
import { snapshot, type Tx, write } from '../store/index.ts'
import { dayFaults, isEnrolled, noteDischarges, putOnList, todayAt } from './discharges.ts'
import { parse } from './parse.ts'

/** The columns of a file, by the name of the field that each fills. All stand in the header; the last four may be empty. */
export const columns = {
  recordNumber: 'record_number',
  name: 'name',
  birthDate: 'birth_date',
  dischargedOn: 'discharged_at',
  phone: 'phone',
  drainKind: 'drain_kind',
  note: 'note',
} as const
const needed = [columns.recordNumber, columns.name, columns.birthDate, columns.dischargedOn]

type Line = { line: number; values: Record<string, string> }
type LineFault = FileOutcome['faults'][number]

/**
 * Takes a file of discharges: looks at every line, and adds all or, while one line is at fault, none. With
 * `dryRun` nothing is added. Whoever is on the list for that day already, or in follow-up, is passed over: the
 * same file a second time adds nothing.
 * @throws Refusal invalid-input
 */
export async function takeDischargeFile(
  staff: StaffMember,
  body: unknown,
  now: Date = clock(),
): Promise<FileOutcome> {
  const { csv, dryRun } = parse('file', DischargeFile, body)
  const { lines, faults } = linesOf(csv)
  const work = (tx: Tx) => take(tx, staff, lines, faults, dryRun, now)
  return dryRun || faults.length > 0 ? snapshot(work) : write(work)
}

async function take(
  tx: Tx,
  staff: StaffMember,
  lines: readonly Line[],
  broken: readonly LineFault[],
  dryRun: boolean,
  now: Date,
): Promise<FileOutcome> {
  const { clinicId } = staff
  const today = await todayAt(tx, clinicId, now)
  const faults: LineFault[] = [...broken]
  const fresh: NewDischarge[] = []
  const seen = new Map<string, number>()
  let known = 0
  let enrolled = 0
  for (const { line, values } of lines) {
    const read = NewDischarge.safeParse(values)
    const found = read.success ? dayFaults(read.data, today) : faultsOf(read.error, values)
    faults.push(
      ...found.map(({ field, message }) => ({
        line,
        column: columns[field as keyof typeof columns] ?? field,
        message,
      })),
    )
    if (!read.success || found.length > 0) continue
    const { recordNumber, dischargedOn } = read.data
    const twin = seen.get(`${recordNumber}\n${dischargedOn}`)
    if (twin !== undefined) {
      faults.push({ line, column: columns.recordNumber, message: `stands in line ${twin} with the same day` })
      continue
    }
    seen.set(`${recordNumber}\n${dischargedOn}`, line)
    if (await isListed(tx, clinicId, recordNumber, dischargedOn)) known++
    else if (await isEnrolled(tx, clinicId, recordNumber)) enrolled++
    else fresh.push(read.data)
  }
  faults.sort((a, b) => a.line - b.line)
  const added = faults.length > 0 ? 0 : fresh.length
  if (!dryRun && added > 0) {
    const ids: string[] = []
    for (const discharge of fresh) ids.push(await putOnList(tx, staff, discharge, now))
    await noteDischarges(tx, staff, now, `put on the list of discharges from a file: ${ids.join(' ')}`)
  }
  return { lines: lines.length, faults, added, known, enrolled }
}

/** The lines of a file under its header, with the number that an editor shows for each. */
function linesOf(csv: string): { lines: Line[]; faults: LineFault[] } {
  const rows = rowsOf(csv)
  const header = rows[0]?.record.map((name) => name.trim().toLowerCase()) ?? []
  const missing = Object.values(columns).filter(
    (column) => !header.includes(column) && needed.includes(column as (typeof needed)[number]),
  )
  const strange = header.filter((name) => !(Object.values(columns) as string[]).includes(name))
  const twice = header.filter((name, i) => header.indexOf(name) !== i)
  const headerFaults = [
    ...missing.map((column) => ({ line: 1, column, message: 'is missing in the header' })),
    ...strange.map((column) => ({
      line: 1,
      column: column || '(no name)',
      message: `is no column of this file; accepted: ${Object.values(columns).join(', ')}`,
    })),
    ...twice.map((column) => ({ line: 1, column, message: 'stands twice in the header' })),
  ]
  if (headerFaults.length > 0) return { lines: [], faults: headerFaults }
  const body = rows.slice(1)
  if (body.length > FILE_MAX_LINES)
    return {
      lines: [],
      faults: [{ line: 1, column: '(whole)', message: `accepted: at most ${FILE_MAX_LINES} people a file` }],
    }
  const faults: LineFault[] = []
  const lines = body.flatMap(({ record, line }): Line[] => {
    if (record.length !== header.length) {
      faults.push({
        line,
        column: '(whole)',
        message: `has ${record.length} values; the header has ${header.length} columns`,
      })
      return []
    }
    return [{ line, values: valuesOf(header, record) }]
  })
  return { lines, faults }
}

function valuesOf(header: readonly string[], record: readonly string[]): Record<string, string> {
  const values: Record<string, string> = {}
  for (const [field, column] of Object.entries(columns)) {
    const value = record[header.indexOf(column)]?.trim() ?? ''
    if (value === '') continue
    // A time of day after the day is what a hospital's export often has; the list goes by days.
    values[field] =
      field === 'dischargedOn' ? value.replace(/^(\d{4}-\d{2}-\d{2})[T ]\d{2}:\d{2}.*$/, '$1') : value
  }
  return values
}

type Row = { record: string[]; line: number }

function rowsOf(csv: string): Row[] {
  const [first = ''] = csv.split(/\r?\n/, 1)
  const count = (sign: string) => first.split(sign).length
  const delimiter = count(';') > count(',') ? ';' : ','
  let line = 1
  try {
    const read = parseCsv(csv, {
      bom: true,
      delimiter,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
    }) as unknown as { record: string[]; info: { lines: number } }[]
    return read.map(({ record, info }) => {
      // `lines` is where a record ends; it begins after as many line breaks as stand within it.
      line = info.lines - record.join('').split('\n').length + 1
      return { record, line }
    })
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    throw new Refusal('invalid-input', 'The file cannot be read as CSV.', [
      { field: 'csv', message: error.message },
    ])
  }
}
