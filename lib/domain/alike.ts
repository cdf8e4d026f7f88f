import { z } from 'zod'
import { Instant, LocalDate } from './instant.ts'

/** Whom somebody is about to enrol, asked before the form is sent. */
export const AlikeQuestion = z.strictObject({
  name: z.string().trim().max(200, 'accepted: at most 200 characters'),
  birthDate: LocalDate,
})

/** A patient of the clinic with a like name and a like birth date, by two identifiers. */
export const AlikePatient = z.strictObject({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  followUpEndedAt: Instant.nullable(),
})
export type AlikePatient = z.infer<typeof AlikePatient>

const LETTERS: Readonly<Record<string, string>> = {
  ß: 'ss',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  æ: 'ae',
  œ: 'oe',
  þ: 'th',
  ı: 'i',
}

/**
 * The parts of a name without case, accents and punctuation.
 * @example nameParts("O'Néill-Łucka, Ana") // ['oneill', 'lucka', 'ana']
 */
export const nameParts = (name: string): string[] =>
  name
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/[ßøłđðæœþı]/g, (letter) => LETTERS[letter] ?? letter)
    .replace(/['’ʼ`]/g, '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((part) => part !== '')

/** How many letters are other, missing, added or changed about, up to a limit. */
function distance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1
  let before: number[] = []
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1
      let least = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + same)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (before[j - 2] ?? 0) + 1)
      next.push(least)
    }
    before = row
    row = next
  }
  return row[b.length] ?? 0
}

/** Slips that a part of a name may have: none in the shortest, which would all be alike; none in numerals. */
function slips(a: string, b: string): number {
  const length = Math.max(a.length, b.length)
  if (length <= 2 || /\p{N}/u.test(a + b)) return 0
  return length <= 5 ? 1 : 2
}

const isSame = (a: string, b: string) => distance(a, b, slips(a, b)) <= slips(a, b)
const isInitial = (a: string, b: string) => {
  const [short = '', long = ''] = a.length < b.length ? [a, b] : [b, a]
  return /^\p{L}$/u.test(short) && long.startsWith(short)
}

/**
 * Whether two names may be one person's: each part of the shorter stands in the longer, in any order, to a slip or
 * two or as its initial; or both are one when written together.
 * @example alikeNames('García Lopez, Ana', 'Ana Garcia') // true
 */
export function alikeNames(one: string, other: string): boolean {
  const [a, b] = [nameParts(one), nameParts(other)]
  if (a.length === 0 || b.length === 0) return false
  if (a.length !== b.length && isSame(a.join(''), b.join(''))) return true
  const [short, long] = a.length <= b.length ? [a, b] : [b, a]
  const left = [...long]
  let full = 0
  const take = (part: string, fits: (a: string, b: string) => boolean): boolean => {
    const at = left.findIndex((candidate) => fits(part, candidate))
    if (at >= 0) left.splice(at, 1)
    return at >= 0
  }
  const unsame = short.filter((part) => !take(part, (x, y) => x === y))
  full = short.length - unsame.length
  for (const part of unsame.toSorted((x, y) => y.length - x.length)) {
    if (take(part, isSame)) full++
    else if (!take(part, isInitial)) return false
  }
  return full > 0
}

const isDate = (text: string) =>
  /^(18[89]|19|20)/.test(text) &&
  !Number.isNaN(Date.parse(text)) &&
  new Date(text).toISOString().slice(0, 10) === text

/**
 * A birth date and those that it may be a slip of: day and month the other way round, one digit other, two
 * neighbours changed about. Some seventy at the most, so that an index finds whoever has one.
 */
export function likeBirthDates(date: string): string[] {
  const [year = '', month = '', day = ''] = date.split('-')
  const found = new Set([date, `${year}-${day}-${month}`])
  const digits = [0, 1, 2, 3, 5, 6, 8, 9]
  const put = (at: number, digit: string, text: string) => text.slice(0, at) + digit + text.slice(at + 1)
  digits.forEach((at, i) => {
    for (const digit of '0123456789') found.add(put(at, digit, date))
    const next = digits[i + 1]
    if (next !== undefined) found.add(put(at, date[next] ?? '', put(next, date[at] ?? '', date)))
  })
  return [...found].filter(isDate)
}
