import { z } from 'zod'
import type { ImportColumnName } from './import-columns.ts'

/** Most rows that one sheet takes: a month of four entries a day for each of four drains. */
export const PAPER_MAX_ROWS = 500
/** Largest sheet that the door reads, in bytes: enough to say of one that is far too long how long it is. */
export const PAPER_MAX_BYTES = 2 * 1024 * 1024

type Column = { name: string; label: string; also: readonly string[]; as: ImportColumnName | null }

/**
 * The columns of a paper log, in the order in which a sheet without a heading is read. `also`: other headings that
 * are understood; `as`: the same column of a file of reports, whose words are accepted.
 */
export const paperColumns = [
  { name: 'date', label: 'Date', also: ['day', 'when'], as: 'at' },
  { name: 'time', label: 'Time', also: ['hour', 'clock'], as: 'at' },
  { name: 'drain', label: 'Drain', also: ['tube', 'which drain', 'bag'], as: 'drain' },
  {
    name: 'ml',
    label: 'mL',
    also: ['output', 'volume', 'amount', 'came out', 'volume_ml', 'drainage'],
    as: 'volume_ml',
  },
  { name: 'total', label: 'Sum', also: ['total', 'sum of several', 'several emptyings'], as: 'total' },
  { name: 'looks', label: 'Looks', also: ['appearance', 'colour', 'color', 'fluid'], as: 'appearance' },
  { name: 'flush', label: 'Flush mL', also: ['flush', 'flushed', 'flush_ml', 'irrigation'], as: 'flush_ml' },
  { name: 'ease', label: 'Went in', also: ['flush_ease', 'ease', 'flush ease'], as: 'flush_ease' },
  {
    name: 'changed',
    label: 'Dressing changed',
    also: ['dressing', 'dressing_changed', 'changed'],
    as: 'dressing_changed',
  },
  { name: 'found', label: 'Found', also: ['dressing_found', 'dressing found'], as: 'dressing_found' },
  { name: 'skin', label: 'Skin', also: ['site'], as: 'skin' },
  {
    name: 'temperature',
    label: 'Temp. °C',
    also: ['temp', 'temperature', 'temperature_c', 'fever'],
    as: 'temperature_c',
  },
  { name: 'pain', label: 'Pain', also: ['pain 0-10', 'pain score'], as: 'pain' },
  { name: 'note', label: 'Note', also: ['notes', 'comment', 'comments', 'remarks'], as: 'note' },
  {
    name: 'who',
    label: 'Patient',
    also: [
      'name',
      'patient name',
      'record number',
      'record_number',
      'record',
      'record no',
      'chart',
      'mrn',
      'id',
    ],
    as: null,
  },
] as const satisfies readonly Column[]
export type PaperColumn = (typeof paperColumns)[number]['name']

export const paperColumnNames = paperColumns.map(({ name }) => name)

/** One row as it was typed or pasted: a text for each column, in their order. */
export type PaperCells = readonly string[]

export const cellOfRow = (row: PaperCells, column: PaperColumn): string =>
  (row[paperColumnNames.indexOf(column)] ?? '').trim()

/** The row with another text in one column. */
export const withCell = (row: PaperCells, column: PaperColumn, text: string): string[] =>
  paperColumnNames.map((name, i) => (name === column ? text : (row[i] ?? '')))

export const emptyRow = (): string[] => paperColumnNames.map(() => '')
export const isEmptyRow = (row: PaperCells): boolean => row.every((cell) => cell.trim() === '')

const oneOf = <const T extends readonly [string, ...string[]]>(words: T) =>
  z.enum(words, { error: `accepted: ${words.join(', ')}` }).nullable()

/** What the rows leave open, as somebody answered it; null: not asked, or not answered yet. */
export const PaperAnswers = z.strictObject({
  /** What a volume without a unit is in; that ounces and cups are those of the United States. */
  volumeUnit: oneOf(['mL', 'oz', 'cups']),
  temperatureUnit: oneOf(['C', 'F']),
  dateOrder: oneOf(['day-first', 'month-first']),
})
export type PaperAnswers = z.infer<typeof PaperAnswers>

/** A sheet as it is sent: looked at only (`dry`), or stored as one report a row or a day. */
export const PaperSheet = z.strictObject({
  rows: z
    .array(
      z.array(z.string().max(2000, 'accepted: at most 2000 characters in a cell')).max(paperColumns.length),
    )
    .min(1, 'accepted: at least one row'),
  by: z.enum(['row', 'day'], { error: 'accepted: row, day' }),
  answers: PaperAnswers,
  dry: z.boolean(),
})
export type PaperSheet = z.infer<typeof PaperSheet>

/** What is wrong in one row, counted from 1; `column` is null where it is the whole row. */
export const PaperFault = z.strictObject({
  row: z.number(),
  column: z.enum(paperColumnNames as [PaperColumn, ...PaperColumn[]]).nullable(),
  value: z.string().nullable(),
  message: z.string(),
})
export type PaperFault = z.infer<typeof PaperFault>

/** What has to be asked before the sheet can be read: nothing of it is guessed. */
export const PaperAsks = z.strictObject({
  volumeUnit: z.boolean(),
  temperatureUnit: z.boolean(),
  dateOrder: z.boolean(),
})
export type PaperAsks = z.infer<typeof PaperAsks>

export const PaperOutcome = z.strictObject({
  stored: z.boolean(),
  /** Rows that say something. */
  rows: z.number(),
  /** Reports that they make. */
  reports: z.number(),
  asks: PaperAsks,
  faults: z.array(PaperFault),
})
export type PaperOutcome = z.infer<typeof PaperOutcome>
