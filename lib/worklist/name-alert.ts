import { alikeNames, nameParts } from '../domain/alike.ts'

type Named = { patientId: string; name: string; birthDate: string }
/** A part of a name by its length, first letter and the set of its letters, as bits. */
type Look = { length: number; first: string; letters: number }
type Seen = { row: Named; parts: Look[]; whole: Look }

/**
 * The rows that stand on one list with another of a like name and birth date: there a slip of the eye is likeliest.
 * Of ten thousand rows only those are compared by name whose dates can be slips of each other.
 */
export function alikeOnList(rows: readonly Named[]): Set<string> {
  const alike = new Set<string>()
  const compare = (one: Seen, other: Seen) => {
    const both = alike.has(one.row.patientId) && alike.has(other.row.patientId)
    if (both || !mayBeAlike(one, other) || !alikeNames(one.row.name, other.row.name)) return
    alike.add(one.row.patientId)
    alike.add(other.row.patientId)
  }
  const byDate = new Map<string, Seen[]>()
  const byPattern = new Map<string, Seen[]>()
  for (const row of rows) {
    const seen = lookOf(row)
    const { birthDate: date } = row
    for (const changed of changedAbout(date))
      for (const other of byDate.get(changed) ?? []) compare(seen, other)
    put(byDate, date, seen)
    // Dates with one digit other are the same once that digit is left out.
    for (const at of DIGITS) {
      const pattern = `${date.slice(0, at)}?${date.slice(at + 1)}`
      for (const other of byPattern.get(pattern) ?? []) compare(seen, other)
      put(byPattern, pattern, seen)
    }
  }
  return alike
}

const DIGITS = [0, 1, 2, 3, 5, 6, 8, 9]

/** A date with day and month the other way round, or with two neighbouring digits changed about. */
function changedAbout(date: string): Set<string> {
  const [year = '', month = '', day = ''] = date.split('-')
  const set = (text: string, at: number, digit: string) => text.slice(0, at) + digit + text.slice(at + 1)
  const swapped = DIGITS.slice(1).map((at, i) => {
    const before = DIGITS[i] ?? 0
    return set(set(date, before, date[at] ?? ''), at, date[before] ?? '')
  })
  return new Set([`${year}-${day}-${month}`, ...swapped].filter((other) => other !== date))
}

function put<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const group = map.get(key)
  if (group) group.push(value)
  else map.set(key, [value])
}

function lookOf(row: Named): Seen {
  const parts = nameParts(row.name)
  return { row, parts: parts.map(look), whole: look(parts.join('')) }
}

function look(text: string): Look {
  let letters = 0
  for (let i = 0; i < text.length; i++) letters |= 1 << (text.charCodeAt(i) % 32)
  return { length: text.length, first: text[0] ?? '', letters }
}

/** Two slips change at most two letters each for others. */
const isNear = (a: Look, b: Look) => Math.abs(a.length - b.length) <= 2 && bits(a.letters ^ b.letters) <= 4
const isInitial = (a: Look, b: Look) => (a.length === 1 || b.length === 1) && a.first === b.first

/** What two alike names always have; quickly told, and false for nearly all others. */
function mayBeAlike(a: Seen, b: Seen): boolean {
  const [short, long] = a.parts.length <= b.parts.length ? [a, b] : [b, a]
  const fits = (part: Look) => long.parts.some((other) => isNear(part, other) || isInitial(part, other))
  return (short.parts.length !== long.parts.length && isNear(a.whole, b.whole)) || short.parts.every(fits)
}

function bits(value: number): number {
  let left = value
  let count = 0
  while (left !== 0) {
    left &= left - 1
    count++
  }
  return count
}
