import { addDays, localDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Axis } from './axis.ts'
import type { Point, Tracks } from './tracks.ts'

export type TableRow = {
  date: string
  output: string[]
  flush: string
  dressing: string
  temperature: string
  pain: string
  site: string
  events: string
}

/** The chart as a table, the newest day first: the same days, the same words, one row a day. */
export function tableRows(
  page: PatientPage,
  axis: Axis,
  tracks: Tracks,
  drains: readonly string[],
): TableRow[] {
  const textOf = (points: readonly Point[], date: string) =>
    points
      .filter(({ at }) => localDate(at, axis.zone) === date)
      .map(({ says }) => says.slice(says.indexOf('·') + 2).replace(/^(flush|dressing|pain) /, ''))
      .join('; ')
  return Array.from({ length: axis.count }, (_, i) => addDays(axis.first, axis.count - 1 - i)).map(
    (date, i) => ({
      date,
      output: drains.map((drain) => {
        const day = page.assessment.drains
          .find((one) => one.drain === drain)
          ?.days.find((one) => one.date === date)
        if (!day) return ''
        if (day.netMl === null) return 'not logged'
        const part =
          day.coverage < 0.9 ? (i === 0 ? ' so far' : ` in part (${Math.round(day.coverage * 100)}%)`) : ''
        return `${Math.round(day.netMl * 10) / 10} mL${part}`
      }),
      flush: textOf(tracks.flush, date),
      dressing: textOf(tracks.dressing, date),
      temperature: textOf(tracks.temperature, date),
      pain: textOf(tracks.pain, date),
      site: textOf(tracks.position, date),
      events: [textOf(tracks.events, date), textOf(tracks.calls, date)].filter(Boolean).join('; '),
    }),
  )
}
