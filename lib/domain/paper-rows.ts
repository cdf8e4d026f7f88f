import type { ImportColumnName } from './import-columns.ts'
import { appearanceLabels, easeLabels, foundLabels, skinLabels } from './labels.ts'
import { DATE_ACCEPTED, orderOf, readDate, readTime } from './paper-dates.ts'
import {
  cellOfRow,
  isEmptyRow,
  type PaperAnswers,
  type PaperAsks,
  type PaperCells,
  type PaperColumn,
  type PaperFault,
  paperColumns,
} from './paper-sheet.ts'
import { fahrenheitToCelsius, usCupsToMl, usOuncesToMl } from './units.ts'

/** A row in the words of a file of reports (lib/domain/import-columns.ts), by which it is checked further. */
export type PaperLine = { row: number; values: Partial<Record<ImportColumnName, string>> }
export type ReadRows = { lines: PaperLine[]; asks: PaperAsks; faults: PaperFault[] }

/**
 * Reads the rows of a paper log as a person writes them: dates and times in several forms, units of the household,
 * words as screens show them. What can mean two things is asked, never guessed. Pure.
 */
export function readRows(rows: readonly PaperCells[], answers: PaperAnswers): ReadRows {
  const said = rows.map((cells, i) => ({ cells, row: i + 1 })).filter(({ cells }) => !isEmptyRow(cells))
  const read: ReadRows = {
    lines: [],
    asks: { volumeUnit: false, temperatureUnit: false, dateOrder: false },
    faults: [],
  }
  const order = orderOf(
    said.map(({ cells }) => dayAndHour(cells).day),
    answers.dateOrder,
  )
  for (const { cells, row } of said) {
    const fault = (column: PaperColumn, message: string) =>
      read.faults.push({ row, column, value: cellOfRow(cells, column).slice(0, 100) || null, message })
    const values: PaperLine['values'] = {}
    const at = atOf(cells, order, fault, read.asks)
    if (at !== null) values.at = at
    for (const { name, as } of paperColumns) {
      const text = cellOfRow(cells, name)
      if (text === '' || as === null || as === 'at') continue
      const value = inWords(name, text, answers, read.asks, fault)
      if (value !== null) values[as] = value
    }
    read.lines.push({ row, values })
  }
  return read
}

type Tell = (column: PaperColumn, message: string) => void

/** A date cell may hold the time, too, as spreadsheet programs have it. */
function dayAndHour(cells: PaperCells): { day: string; hour: string } {
  const date = cellOfRow(cells, 'date')
  const time = cellOfRow(cells, 'time')
  const both = time === '' ? /^(\S+)[T ]+(\d{1,2}[:.]\d{2}.*)$/.exec(date) : null
  return both ? { day: both[1] ?? date, hour: both[2] ?? '' } : { day: date, hour: time }
}

function atOf(
  cells: PaperCells,
  order: ReturnType<typeof orderOf>,
  fault: Tell,
  asks: PaperAsks,
): string | null {
  const { day, hour } = dayAndHour(cells)
  if (day === '') fault('date', `is missing; ${DATE_ACCEPTED}`)
  const read = day === '' ? null : readDate(day, order)
  if (read && 'why' in read) fault('date', read.why)
  if (read && 'ask' in read) asks.dateOrder = true
  if (hour === '') fault('time', 'is missing; accepted: 8:05, 20:05, 8:05 pm')
  const time = hour === '' ? null : readTime(hour)
  if (hour !== '' && time === null) fault('time', 'accepted: 8:05, 20:05, 8:05 pm')
  return read && 'date' in read && time !== null ? `${read.date} ${time}` : null
}

/** The value in the words of a file of reports; null where it must be asked or is at fault. What is not understood stays as it is. */
function inWords(
  column: PaperColumn,
  text: string,
  answers: PaperAnswers,
  asks: PaperAsks,
  fault: Tell,
): string | null {
  if (column === 'ml') return volumeOf(text, answers.volumeUnit, asks)
  if (column === 'flush') return flushOf(text, fault)
  if (column === 'temperature') return temperatureOf(text, answers.temperatureUnit, asks)
  if (column === 'pain') return text.replace(/\s*(\/|of|out of)\s*10$/i, '')
  if (column === 'total' || column === 'changed') return yesNo[text.toLowerCase()] ?? text
  const words = labelsOf[column as keyof typeof labelsOf]
  return words ? wordOf(text, words) : text
}

const yesNo: Readonly<Record<string, string>> = { y: 'yes', x: 'yes', '✓': 'yes', n: 'no', '-': 'no' }
const labelsOf = { looks: appearanceLabels, ease: easeLabels, found: foundLabels, skin: skinLabels } as const

/** A word as a screen shows it is as good as the record's own. */
function wordOf(text: string, labels: Readonly<Record<string, string>>): string {
  const given = text.toLowerCase().replace(/[\s_]+/g, ' ')
  const word = Object.keys(labels).find(
    (one) => one === given || one.replaceAll('-', ' ') === given || labels[one]?.toLowerCase() === given,
  )
  return word ?? text
}

const UNMEASURED = /^(\?|unknown|not measured|could not (be )?measured?|can ?not be measured)$/i
const VOLUME = /^(\d+(?:\.\d+)?)\s*(ml|cc|l|oz|fl\.? ?oz\.?|ounces?|cups?)?\.?$/i
const tenth = (value: number) => String(Math.round(value * 10) / 10)

/** mL: ounces and cups, and numbers in a sheet that speaks of them, only once somebody has said what they are. */
function volumeOf(text: string, answered: PaperAnswers['volumeUnit'], asks: PaperAsks): string | null {
  if (UNMEASURED.test(text)) return 'unknown'
  const [, number, unit = ''] = VOLUME.exec(text) ?? []
  if (number === undefined) return text
  const own = unit.toLowerCase()
  const isHousehold = own !== '' && !['ml', 'cc', 'l'].includes(own)
  if (isHousehold && answered === null) {
    asks.volumeUnit = true
    return null
  }
  if (own === 'ml' || own === 'cc') return number
  if (own === 'l') return tenth(Number(number) * 1000)
  const kind = own.startsWith('cup') ? 'cups' : isHousehold ? 'oz' : answered
  if (kind === 'oz') return tenth(usOuncesToMl(Number(number)))
  return kind === 'cups' ? tenth(usCupsToMl(Number(number))) : number
}

function flushOf(text: string, fault: Tell): string | null {
  if (UNMEASURED.test(text)) return 'unknown'
  const [, number, unit = ''] = VOLUME.exec(text) ?? []
  if (number === undefined || unit === '' || /^(ml|cc)$/i.test(unit)) return number ?? text
  fault('flush', 'accepted: a number of mL, which is what the syringe shows')
  return null
}

/** °C: a number that only °F can be is asked about, unless it says so itself. */
function temperatureOf(
  text: string,
  answered: PaperAnswers['temperatureUnit'],
  asks: PaperAsks,
): string | null {
  const [, number, unit = ''] = /^(\d+(?:\.\d+)?)\s*°?\s*([cf])?$/i.exec(text) ?? []
  if (number === undefined) return text
  const own = unit.toUpperCase()
  const value = Number(number)
  if (own === 'F' || (own === '' && answered === 'F')) return String(fahrenheitToCelsius(value))
  if (own === '' && answered === null && value >= 86 && value <= 113) {
    asks.temperatureUnit = true
    return null
  }
  return number
}
