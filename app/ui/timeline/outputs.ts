import type { DrainOutput } from '@/lib/domain/assessment.ts'
import { inPlace, tubeSince } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import { type DayLimit, isComplete } from '@/lib/domain/day-limit.ts'
import type { LocalDate } from '@/lib/domain/instant.ts'
import { isBiliary, isUrinary } from '@/lib/domain/kinds.ts'
import { addDays, daysBetween, localDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Drain } from '@/lib/domain/record.ts'
import { standingReports } from '@/lib/domain/standing-reports.ts'
import { firstDayHere } from './reach.ts'

/** One day of an output: `netMl` null where it is not known, and `why` not. `hours` is the day's length where it was covered. */
export type OutputDay = {
  date: LocalDate
  netMl: number | null
  coverage: number
  /** As complete as the rules ask for. */
  complete: boolean
  hours: number | null
  atLeast: boolean
  why: string
}

/** What one strip of bars shows: a drain, or the sum of those that drain the same. */
export type Output = {
  id: string
  label: string
  /** The drains in it: one, or those that are added up. */
  drains: readonly string[]
  since: LocalDate
  placed: LocalDate
  days: OutputDay[]
  usual: number | null
  /** The usual output is the ward's figure, not yet the drain's own. */
  isProvisional: boolean
  limits: readonly DayLimit[]
  projection: DrainOutput['projection']
}
export type Mode = 'each' | 'sum'

/** Drains of one family drain the same fluid, so that their volumes may be added. */
const familyOf = ({ kind }: Drain): string => (isUrinary(kind) ? 'urine' : isBiliary(kind) ? 'bile' : kind)

/** The drains that a chart shows: those that lie, or all where none does any more. */
export function shownDrains(page: Pick<PatientPage, 'record'>): Drain[] {
  const lying = inPlace(page)
  return lying.length > 0 ? lying : page.record.drains
}

/** Whether there is anything to add up. */
export const canSum = (drains: readonly Drain[]): boolean =>
  new Set(drains.map(familyOf)).size < drains.length

/** The strips of a chart, one a drain, or one a family of drains. */
export function outputsOf(page: PatientPage, mode: Mode): Output[] {
  const drains = shownDrains(page)
  const each = new Map(drains.map((drain) => [drain.id, outputOf(page, drain)]))
  if (mode === 'each') return [...each.values()]
  const families = [...new Set(drains.map(familyOf))].map((of) =>
    drains.filter((one) => familyOf(one) === of),
  )
  return families.flatMap((members) => {
    const outputs = members.flatMap(({ id }) => each.get(id) ?? [])
    return outputs.length > 1 ? [sumOf(outputs)] : outputs
  })
}

function outputOf(page: PatientPage, drain: Drain): Output {
  const { zone, known } = { zone: page.record.timeZone, known: page.assessment.drains }
  const output = known.find((one) => one.drain === drain.id)
  return {
    id: drain.id,
    label: capital(page.labels[drain.id]?.label ?? drain.id),
    drains: [drain.id],
    since: localDate(tubeSince(page, drain), zone),
    placed: localDate(drain.placedAt, zone),
    days: daysOf(page, drain, output?.days ?? []),
    usual: output?.baselineMlPerDay ?? null,
    isProvisional: output?.baselineFrom === 'ward',
    limits: page.limits.drains[drain.id] ?? [],
    projection: output?.projection ?? null,
  }
}

/**
 * The days of a drain from its first in our care to today, or to its removal: those without a reading are unknown. Days
 * of which the page has no reports are none of them: nobody knows here whether they were logged.
 */
function daysOf(page: PatientPage, drain: Drain, days: DrainOutput['days']): OutputDay[] {
  const { timeZone: zone, enrolledAt, staffEvents } = page.record
  const own = staffEvents.filter((event) => event.drain === drain.id)
  const later = Date.parse(drain.placedAt) > Date.parse(enrolledAt) ? drain.placedAt : enrolledAt
  const earliest = [localDate(later, zone), days[0]?.date ?? '9'].toSorted()[0] as LocalDate
  const first = [earliest, firstDayHere(page)].toSorted()[1] as LocalDate
  const removedAt = drain.removedAt ?? own.findLast(({ type }) => type === 'removed')?.at ?? null
  const isOut = drain.removedAt != null || !inPlace(page).includes(drain)
  const last = localDate(isOut && removedAt ? removedAt : page.asOf, zone)
  const known = new Map(days.map((day) => [day.date, day]))
  const isCapped = cappedDays(drain, own, zone, last)
  const unmeasured = unmeasuredDays(page, drain.id)
  return Array.from({ length: Math.max(0, daysBetween(first, last) + 1) }, (_, i) => {
    const date = addDays(first, i)
    const day = known.get(date)
    const netMl = day?.netMl ?? null
    return {
      date,
      netMl,
      coverage: day?.coverage ?? 0,
      complete: netMl !== null && isComplete(day?.coverage ?? 0, page.limits),
      hours: day?.hours ?? null,
      atLeast: day?.atLeast ?? false,
      why:
        netMl !== null
          ? ''
          : isCapped(date)
            ? 'capped'
            : unmeasured.has(date)
              ? 'not measured'
              : 'not logged',
    }
  })
}

/** Days on which it was logged that the drain was emptied and could not be measured: their volume is unknown, not unlogged. */
const unmeasuredDays = ({ record: { reports, timeZone } }: PatientPage, drain: string): Set<LocalDate> =>
  new Set(
    standingReports(reports)
      .flatMap(({ readings }) => readings ?? [])
      .filter((reading) => reading.drain === drain && reading.volumeMl === null)
      .map(({ at }) => localDate(at, timeZone)),
  )

/** On which days a drain was capped: nothing is measured then, and nothing is missing. */
function cappedDays(drain: Drain, own: PatientPage['record']['staffEvents'], zone: string, last: LocalDate) {
  const turns = own
    .filter(({ type }) => type === 'capped' || type === 'uncapped')
    .map(({ at, type }) => ({ at: Date.parse(at), date: localDate(at, zone), type }))
  if (drain.cappedAt)
    turns.unshift({
      at: Date.parse(drain.cappedAt),
      date: localDate(drain.cappedAt, zone),
      type: 'capped',
    })
  turns.sort((a, b) => a.at - b.at)
  return (date: LocalDate) => date <= last && turns.findLast((turn) => turn.date <= date)?.type === 'capped'
}

/** The sum of some outputs. A day of which one part is not known has no sum; one half known is known in part. */
function sumOf(parts: readonly Output[]): Output {
  const byDate = new Map<LocalDate, { label: string; day: OutputDay }[]>()
  for (const { label, days } of parts)
    for (const day of days) {
      const list = byDate.get(day.date) ?? []
      list.push({ label, day })
      byDate.set(day.date, list)
    }
  const usual = parts.map((part) => part.usual)
  return {
    id: parts.map(({ id }) => id).join(' + '),
    label: `${parts.map(({ label }, i) => (i === 0 ? label : label.toLowerCase())).join(' + ')}, summed`,
    drains: parts.flatMap(({ drains }) => drains),
    since: parts.map(({ since }) => since).toSorted()[0] as LocalDate,
    placed: parts.map(({ placed }) => placed).toSorted()[0] as LocalDate,
    days: [...byDate]
      .map(([date, list]) => sumDay(date, list))
      .toSorted((a, b) => (a.date < b.date ? -1 : 1)),
    usual: usual.every((one) => one !== null)
      ? usual.reduce<number>((sum, one) => sum + (one ?? 0), 0)
      : null,
    isProvisional: parts.some((one) => one.isProvisional),
    limits: [],
    projection: null,
  }
}

function sumDay(date: LocalDate, parts: readonly { label: string; day: OutputDay }[]): OutputDay {
  const unknown = parts.filter(({ day }) => day.netMl === null)
  const coverage = Math.min(...parts.map(({ day }) => day.coverage))
  return {
    date,
    netMl: unknown.length > 0 ? null : parts.reduce((sum, { day }) => sum + (day.netMl ?? 0), 0),
    coverage,
    complete: parts.every(({ day }) => day.complete),
    hours: parts.find(({ day }) => day.hours !== null)?.day.hours ?? null,
    atLeast: parts.some(({ day }) => day.atLeast),
    why:
      unknown.length === 0
        ? ''
        : unknown.length === parts.length && unknown.every(({ day }) => day.why === unknown[0]?.day.why)
          ? (unknown[0]?.day.why ?? '')
          : `no sum: ${unknown.map(({ label, day }) => `${label.toLowerCase()} ${day.why}`).join(', ')}`,
  }
}
