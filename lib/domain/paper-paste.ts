import { emptyRow, PAPER_MAX_ROWS, type PaperColumn, paperColumns } from './paper-sheet.ts'

/**
 * The cells of a table as spreadsheet programs copy it: rows by line, cells by tab; or by comma, or by semicolon where
 * the first line has no comma. A cell in double quotes may hold any of them. Empty rows are left out.
 */
export function tableOf(text: string): string[][] {
  const [first = ''] = text.split(/\r\n|\n|\r/, 1)
  const mark = first.includes('\t') ? '\t' : first.includes(';') && !first.includes(',') ? ';' : ','
  const rows: string[][] = [['']]
  let quoted = false
  for (let i = 0; i < text.length; i += 1) {
    const char = text[i] as string
    const row = rows.at(-1) as string[]
    const at = row.length - 1
    if (quoted) {
      if (char !== '"') row[at] += char
      else if (text[i + 1] === '"') {
        row[at] += '"'
        i += 1
      } else quoted = false
    } else if (char === '"' && row[at] === '') quoted = true
    else if (char === mark) row.push('')
    else if (char === '\n' || char === '\r') {
      if (char === '\r' && text[i + 1] === '\n') i += 1
      rows.push([''])
    } else row[at] += char
  }
  return rows.map((row) => row.map((cell) => cell.trim())).filter((row) => row.some((cell) => cell !== ''))
}

/** A paste, laid into the columns of a sheet. */
export type Pasted = {
  rows: string[][]
  /** Headings, or the cells of a sheet without one, for which there is no column: their cells are left out. */
  left: string[]
  /** How many rows it has, where that is more than one sheet takes: then none is laid. */
  tooMany: number | null
}

/** Lays a pasted table into the columns, by its heading if it has one, else in their order. */
export function pasted(text: string): Pasted {
  const table = tableOf(text)
  const heading = headingOf(table[0] ?? [])
  const body = heading ? table.slice(1) : table
  if (body.length > PAPER_MAX_ROWS) return { rows: [], left: [], tooMany: body.length }
  const columns = heading ?? paperColumns.map(({ name }): Heading => ({ name, unit: '' }))
  const left = heading
    ? (table[0] ?? []).filter((cell, i) => heading[i] === null && cell !== '')
    : [...new Set(body.flatMap((row) => row.slice(columns.length)).filter(Boolean))]
  return { rows: body.map((row) => laid(row, columns)), left, tooMany: null }
}

type Heading = { name: PaperColumn; unit: string }

function laid(row: readonly string[], columns: readonly (Heading | null)[]): string[] {
  const cells = emptyRow()
  for (const [i, column] of columns.entries()) {
    const cell = row[i] ?? ''
    if (column === null || cell === '') continue
    const at = paperColumns.findIndex(({ name }) => name === column.name)
    // A unit in the heading is one of every number below it that has none of its own.
    const text = column.unit !== '' && /^[\d.,]+$/.test(cell) ? `${cell} ${column.unit}` : cell
    cells[at] = cells[at] ? `${cells[at]} ${text}` : text
  }
  return cells
}

/** The columns that a first row names; null where it is no heading. */
function headingOf(row: readonly string[]): (Heading | null)[] | null {
  const found = row.map(columnOf)
  const known = found.filter((one) => one !== null).length
  return known >= 2 || (known === 1 && row.filter(Boolean).length === 1) ? found : null
}

function columnOf(cell: string): Heading | null {
  const plain = cell.toLowerCase().replace(/\s+/g, ' ').trim()
  const unit =
    /\b(oz|ounces?|cups?)\b/.exec(plain)?.[1] ?? (/°\s*f\b|\(f\)|fahrenheit/.test(plain) ? '°F' : '')
  const bare = plain
    .replace(/\(.*?\)|\[.*?\]/g, ' ')
    .replace(/°\s*[cf]\b|\b(ml|cc|oz|ounces?|cups?)\b|[,:.#]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
  const named = paperColumns.find(({ name, label, also }) =>
    [name, label.toLowerCase(), ...also].some((word) => word === plain || (bare !== '' && word === bare)),
  )
  return named ? { name: named.name, unit } : null
}
