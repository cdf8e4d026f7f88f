import { randomInt } from 'node:crypto'
import { daysBetween, localDate } from '../../domain/local-time.ts'
import { FEW_PATIENTS, UNDER_FEW, WITHHELD } from '../../domain/registry.ts'
import type { RegistryPatient } from '../../store/registry-rows.ts'

const DAY_MS = 86_400_000
const HOUR_MS = 3_600_000

/** No vowels and no digits: what is drawn reads as nobody's name, number or date by chance. */
const LETTERS = 'bcdfghjklmnpqrstvwxz'

/** A word for a patient that says nothing of them: drawn for one file, and forgotten with it. */
export const newStudyId = (): string =>
  Array.from({ length: 12 }, () => LETTERS[randomInt(LETTERS.length)]).join('')

/** In an order that says nothing of when they were enrolled. */
export function shuffled<T>(all: readonly T[]): T[] {
  const mixed = [...all]
  for (let i = mixed.length - 1; i > 0; i--) {
    const j = randomInt(i + 1)
    const [a, b] = [mixed[i] as T, mixed[j] as T]
    mixed[i] = b
    mixed[j] = a
  }
  return mixed
}

/** Ten years to a group; all of 90 and over are one, as 45 CFR 164.514(b)(2)(i)(C) has it. */
export function ageGroup({ birthDate, firstAt, timeZone }: RegistryPatient): string {
  const placed = localDate(firstAt, timeZone)
  const years =
    Number(placed.slice(0, 4)) -
    Number(birthDate.slice(0, 4)) -
    (placed.slice(5) < birthDate.slice(5) ? 1 : 0)
  if (daysBetween(birthDate, placed) < 0) return WITHHELD
  if (years >= 90) return '90 or over'
  const ten = Math.floor(years / 10) * 10
  return `${ten}-${ten + 9}`
}

/**
 * Which values may be named, by how many patients have each. What few have is withheld; and with it the next smallest, until what is
 * withheld is not of few patients either: else it could be counted, and told by what is missing.
 *
 * @param already how many patients have what is withheld on another ground.
 */
export function nameable(counts: ReadonlyMap<string, number>, already = 0): ReadonlySet<string> {
  const rising = [...counts].toSorted(([a, one], [b, other]) => one - other || (a < b ? -1 : 1))
  let hidden = already
  const first = rising.findIndex(([, count]) => {
    if (count >= FEW_PATIENTS && (hidden === 0 || hidden >= FEW_PATIENTS)) return true
    hidden += count
    return false
  })
  return new Set(first < 0 ? [] : rising.slice(first).map(([value]) => value))
}

/** A count of what may be named; of what may not, whether it is of few patients, or withheld to shield such. */
export const countText = (count: number, patients: number, isNamed: boolean): string =>
  isNamed ? String(count) : patients < FEW_PATIENTS ? UNDER_FEW : WITHHELD

/** Whole days of 24 h from one instant to another. */
export const daysFrom = (from: string, to: string): number =>
  Math.floor((Date.parse(to) - Date.parse(from)) / DAY_MS)

/** Hours to a tenth, empty where there is no second instant. */
export const hoursText = (from: string, to: string | null): string =>
  to === null ? '' : String(Math.round(((Date.parse(to) - Date.parse(from)) / HOUR_MS) * 10) / 10)

/** How many patients share each value. */
export function tallyBy<T>(all: readonly T[], keyOf: (one: T) => string): Map<string, number> {
  const counts = new Map<string, number>()
  for (const one of all) counts.set(keyOf(one), (counts.get(keyOf(one)) ?? 0) + 1)
  return counts
}

/** A table as RFC 4180 has it. */
export const csvOf = (header: readonly string[], rows: readonly (readonly (string | number)[])[]): string =>
  [header, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')

const cell = (value: string | number): string =>
  /[",\r\n]/.test(String(value)) ? `"${String(value).replaceAll('"', '""')}"` : String(value)
