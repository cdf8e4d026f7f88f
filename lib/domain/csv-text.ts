/** What stands in one place of a table; null: not known. */
export type CsvCell = string | number | boolean | null

/** Spreadsheets take what begins so for a formula and run it. */
const FORMULA = /^[\s]*[=+\-@＝＋－＠]|^[\t\r\n]/
const NEEDS_QUOTES = /[",\r\n]/
/** Spreadsheets read a file as UTF-8 by it. */
const BYTE_ORDER_MARK = '\ufeff'

/**
 * A table as CSV (RFC 4180, UTF-8): names first, then a row a line. A text that a spreadsheet would run as a formula gets an
 * apostrophe before it; numbers stay numbers. What is not known is empty, never 0.
 */
export const csvText = (names: readonly string[], rows: Iterable<readonly CsvCell[]>): string =>
  BYTE_ORDER_MARK + [names, ...rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('')

function cellText(cell: CsvCell): string {
  if (cell === null) return ''
  if (typeof cell !== 'string') return String(cell)
  const text = FORMULA.test(cell) ? `'${cell}` : cell
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}
