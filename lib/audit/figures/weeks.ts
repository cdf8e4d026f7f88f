import type { Period } from '../../domain/figures.ts'
import type { LocalDate } from '../../domain/instant.ts'
import { addDays, instantOf, localDate, localParts } from '../../domain/local-time.ts'
import type { Offset } from '../../store/audit-heard.ts'

const DAY_MS = 86_400_000

/** A week of the clinic, as far as it lies in the period: its Monday, its ends in ms, and the noon of each of its days. */
export type Week = { monday: LocalDate; from: number; until: number; noons: number[] }

/** The Monday of a day's week. @example mondayOf('2026-11-26') // '2026-11-23' */
export const mondayOf = (date: LocalDate): LocalDate =>
  addDays(date, -((new Date(Date.parse(date)).getUTCDay() + 6) % 7))

const ms = (local: string, zone: string) => Date.parse(instantOf(local, zone) ?? '')

/** The weeks that a period touches, in order. */
export function weeksOf({ from, until }: Period, zone: string): Week[] {
  const weeks: Week[] = []
  for (let monday = mondayOf(from); monday < until; monday = addDays(monday, 7)) {
    const first = monday < from ? from : monday
    const next = addDays(monday, 7)
    const end = next > until ? until : next
    const noons: number[] = []
    for (let day = first; day < end; day = addDays(day, 1)) noons.push(ms(`${day}T12:00`, zone))
    weeks.push({ monday, from: ms(`${first}T00:00`, zone), until: ms(`${end}T00:00`, zone), noons })
  }
  return weeks
}

/** `0:5,1:7` as the days of each week. */
export function daysByWeek(text: string, weeks: number): number[] {
  const days = Array.from({ length: weeks }, () => 0)
  for (const one of text.split(',')) {
    const [week = -1, count = 0] = one.split(':').map(Number)
    if (week in days) days[week] = count
  }
  return days
}

/** In which of the weeks an instant lies; −1 for none. */
export const weekAt = (weeks: readonly Week[], at: number): number =>
  weeks.findIndex(({ from, until }) => from <= at && at < until)

/** How far a zone's clock is from UTC between two instants: one stretch, or one more for each change of the clocks. */
export function offsetsOf(from: number, until: number, zone: string): Offset[] {
  const seconds = (at: number) => {
    const { year, month, day, hour, minute, second } = localParts(at, zone)
    return (Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(at / 1000) * 1000) / 1000
  }
  const offsets: Offset[] = []
  let before = seconds(from)
  for (let at = from; at < until; at += DAY_MS) {
    let late = Math.min(at + DAY_MS, until)
    if (seconds(late) === before) continue
    let early = at
    while (late - early > 1000) {
      const middle = Math.floor((early + late) / 2000) * 1000
      if (seconds(middle) === before) early = middle
      else late = middle
    }
    offsets.push({ until: new Date(late).toISOString(), seconds: before })
    before = seconds(late)
  }
  return [...offsets, { until: new Date(until).toISOString(), seconds: before }]
}

/** Which day of a zone's calendar an instant lies on, as a number, by the zone's stretches: a panel's calls are many. */
export const dayNumber = (offsets: readonly Offset[], at: string): number => {
  const { seconds = 0 } = offsets.find(({ until }) => at < until) ?? offsets.at(-1) ?? {}
  return Math.floor((Date.parse(at) + seconds * 1000) / DAY_MS)
}

/** The whole weeks before the one of today. */
export function lastWeeks(now: Date, zone: string, weeks: number): Period {
  const monday = mondayOf(localDate(now.getTime(), zone))
  return { from: addDays(monday, -7 * weeks), until: monday }
}
