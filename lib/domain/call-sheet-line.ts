import type { Evidence } from './assessment.ts'
import type { LocalDate } from './instant.ts'
import { clockTime, dayAndTime, shortTimes } from './local-time.ts'

/** Where a number of the call sheet comes from: a place on the same page. `basis`: what a flag rests on. */
export type SheetTarget =
  | { to: 'report'; id: string }
  | { to: 'call'; id: string }
  | { to: 'basis'; flag: string }
  | { to: 'day'; drain: string | null; date: LocalDate }
  | { to: 'timeline' }
  | { to: 'orders' }
  | { to: 'person' }

/** A part of a sentence: plain words, or a number with where it comes from. All parts together are the sentence. */
export type Piece = string | { text: string; on: SheetTarget }
export type Line = readonly Piece[]

export const textOf = (line: Line): string =>
  line.map((piece) => (typeof piece === 'string' ? piece : piece.text)).join('')

const DAY = '(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)'
const MONTH = '(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)'
/** A phone number, a date with or without its time, a time, a number with its unit. */
const NUMBER = new RegExp(
  [
    String.raw`\+?\d[\d -]{5,}\d`,
    String.raw`(?:${DAY} )?\d{1,2} ${MONTH}[a-z]*(?: \d{4})?(?:, | )?(?:\d\d:\d\d)?`,
    String.raw`(?:${DAY} )?\d\d:\d\d`,
    String.raw`[−-]?\d+(?:[.,]\d+)?(?: ?(?:mL/day|mL/h|mL|°C|%|h|days?|of 10|F)(?![A-Za-z]))?`,
  ].join('|'),
  'g',
)

/** Splits a text into its numbers and the words between them. */
function numbered(text: string, targetOf: (number: string, before: string) => SheetTarget): Line {
  const pieces: Piece[] = []
  let from = 0
  for (const { index, 0: found } of text.matchAll(NUMBER)) {
    const number = found.trimEnd().replace(/,$/, '')
    if (index > from) pieces.push(text.slice(from, index))
    pieces.push({ text: number, on: targetOf(number, text.slice(0, index)) })
    from = index + number.length
  }
  return from < text.length ? [...pieces, text.slice(from)] : pieces
}

/** A text whose every number comes from one place. */
export const tie = (text: string, on: SheetTarget): Line => numbered(text, () => on)

/**
 * A finding's sentence: a number that a report says leads to that report, every other one to what the finding rests
 * on, where the threshold stands with its source.
 */
export function traced(
  text: string,
  { evidence, flag, zone, now }: { evidence: readonly Evidence[]; flag: string; zone: string; now: number },
): Line {
  const told = evidence.flatMap(({ report, at, value, unit }) =>
    report === null ? [] : [{ report, times: timesOf(at, zone, now), value, unit }],
  )
  const basis: SheetTarget = { to: 'basis', flag }
  return numbered(text, (number, before) => {
    if (/\b(?:limit|over|under) [−-]?$/.test(before)) return basis
    const from = told.find((one) => one.times.includes(number) || says(number, one))
    return from ? { to: 'report', id: from.report } : basis
  })
}

function timesOf(at: string, zone: string, now: number): string[] {
  const long = dayAndTime(at, zone)
  return [long, shortTimes(long, now, zone), clockTime(at, zone)]
}

/** A unit of the record (UCUM) as sentences write it. */
export const unitText = (unit: string): string =>
  unit === 'Cel' ? '°C' : unit === '{score}' ? 'of 10' : unit

/** Whether a number in a sentence is this value, as sentences round it. */
function says(number: string, { value, unit }: Pick<Evidence, 'value' | 'unit'>): boolean {
  if (typeof value !== 'number' || /:/.test(number)) return false
  const [, digits = '', behind = ''] = /^([−-]?[\d.]+) ?(.*)$/.exec(number) ?? []
  const read = Number(digits.replace('−', '-'))
  const isClose = Math.abs(read - value) <= (digits.includes('.') ? 0.05 : 0.5)
  if (digits === '' || !isClose) return false
  return behind === '' ? read === value : unit === null || behind === unitText(unit)
}
