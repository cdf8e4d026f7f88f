import { setImmediate as nextTurn } from 'node:timers/promises'
import { CsvError, parse } from 'csv-parse'
import { type ImportColumn, type ImportColumnName, importColumns } from '../domain/import-columns.ts'
import { IMPORT_MAX_LINES, type LineFault } from '../domain/import-file.ts'

/** The values of one line by their column, trimmed; what is empty is left out. */
export type LineOf<Name extends string> = { line: number; values: Partial<Record<Name, string>> }
export type LinesOf<Name extends string> = { lines: LineOf<Name>[]; faults: LineFault[] }
export type Line = LineOf<ImportColumnName>

/** The columns that a kind of file has. */
type Columns<Name extends string> = readonly (ImportColumn & { name: Name })[]

const PIECE = 64 * 1024

const broken = (line: number, message: string, value: string | null = null): LinesOf<never> => ({
  lines: [],
  faults: [{ line, column: null, value, message }],
})

/** The lines of a file of reports, or what is wrong with the file as a whole. */
export const linesOf = (bytes: Uint8Array): Promise<LinesOf<ImportColumnName>> =>
  linesWith(importColumns, bytes)

/** The same of a file with other columns. */
export async function linesWith<Name extends string>(
  columns: Columns<Name>,
  bytes: Uint8Array,
): Promise<LinesOf<Name>> {
  const text = textOf(bytes)
  if (text === null)
    return broken(
      1,
      'The file is not UTF-8. In a spreadsheet program choose “CSV UTF-8” when saving; accepted: UTF-8 text',
    )
  if (text.startsWith('PK'))
    return broken(1, 'This is a workbook of a spreadsheet program; accepted: the same saved as CSV UTF-8')
  const [header = ''] = text.split(/\r\n|\n|\r/, 1)
  if (!header.includes(',') && /[;\t]/.test(header))
    return broken(
      1,
      `The columns are separated by ${header.includes(';') ? 'semicolons' : 'tabs'}; accepted: commas`,
    )
  try {
    return await read(columns, text)
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const line = typeof error.lines === 'number' ? error.lines : 1
    return broken(line, `This line cannot be read as CSV: ${error.message}`)
  }
}

/** UTF-8 text with or without a byte order mark, or null. */
function textOf(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return null
  }
}

type Parsed = { record: string[]; info: { lines: number } }

async function read<Name extends string>(wanted: Columns<Name>, text: string): Promise<LinesOf<Name>> {
  const parser = parse({ info: true, relax_column_count: true, skip_empty_lines: true })
  const feed = (async () => {
    for (let from = 0; from < text.length; from += PIECE) {
      if (parser.destroyed) return
      parser.write(text.slice(from, from + PIECE))
      await nextTurn() // other requests are answered between two pieces
    }
    parser.end()
  })()
  let columns: (Name | null)[] | null = null
  const found: LinesOf<Name> = { lines: [], faults: [] }
  for await (const { record, info } of parser as AsyncIterable<Parsed>) {
    const line = info.lines - breaksIn(record)
    if (columns === null) {
      const header = headerOf(wanted, record)
      if (header.faults.length > 0) {
        parser.destroy()
        return { lines: [], faults: header.faults }
      }
      columns = header.columns
      continue
    }
    if (record.every((value) => value.trim() === '')) continue
    if (found.lines.length === IMPORT_MAX_LINES) {
      parser.destroy()
      return broken(
        line,
        `The file has more than ${IMPORT_MAX_LINES} lines; accepted: at most that, so divide it into several`,
      )
    }
    if (record.length !== columns.length)
      found.faults.push({
        line,
        column: null,
        value: null,
        message: `has ${record.length} values; accepted: ${columns.length}, as the header has (a comma within a value needs quotes around the value)`,
      })
    found.lines.push({ line, values: valuesOf(columns, record) })
  }
  await feed
  return columns === null ? broken(1, 'The file is empty; accepted: a header line and lines below it') : found
}

/** A value in quotes may run over several lines: the line that counts is the one on which it begins. */
const breaksIn = (record: readonly string[]) =>
  record.reduce((count, value) => count + (value.match(/\n/g)?.length ?? 0), 0)

function headerOf<Name extends string>(
  wanted: Columns<Name>,
  record: readonly string[],
): { columns: (Name | null)[]; faults: LineFault[] } {
  const names = wanted.map(({ name }) => name)
  const given = record.map((value) => value.trim().toLowerCase())
  const fault = (column: string, message: string): LineFault => ({ line: 1, column, value: null, message })
  const faults = [
    ...given
      .filter((name) => !names.some((known) => known === name))
      .map((name) => fault(name || '(no name)', `is no column of this file; accepted: ${names.join(', ')}`)),
    ...given
      .filter((name, i) => given.indexOf(name) !== i)
      .map((name) => fault(name, 'stands twice in the header; accepted: once')),
    ...wanted
      .filter(({ name, isNeeded }) => isNeeded && !given.includes(name))
      .map(({ name, accepted }) => fault(name, `is missing in the header; its values: ${accepted}`)),
  ]
  return { columns: given.map((name) => names.find((known) => known === name) ?? null), faults }
}

function valuesOf<Name extends string>(
  columns: readonly (Name | null)[],
  record: readonly string[],
): LineOf<Name>['values'] {
  const values: LineOf<Name>['values'] = {}
  for (const [i, column] of columns.entries()) {
    const value = record[i]?.trim() ?? ''
    if (column !== null && value !== '') values[column] = value
  }
  return values
}
