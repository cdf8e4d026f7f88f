import { dayMonth, daysBetween, weekday } from '@/lib/domain/local-time.ts'
import { dateAt } from './axis.ts'
import { dayVolume } from './days.ts'
import { projectionText } from './extra-series.ts'
import { TRACKS, type Track } from './happenings.ts'
import type { Output, OutputDay } from './outputs.ts'
import { courseOf, type Picture, slowOf } from './picture.ts'
import type { Point } from './tracks.ts'

const titles: Readonly<Record<Track, string>> = {
  flush: 'Flush',
  dressing: 'Dressing',
  temperature: 'Temperature',
  pain: 'Pain',
  signs: 'Signs',
  site: 'Site',
  events: 'Events',
  calls: 'Calls and notes',
}

/** An output's day by its place on the axis, where it had one. */
export const dayOf = (
  { axis }: Pick<Picture, 'axis'>,
  { days }: Output,
  x: number,
): OutputDay | undefined => {
  const date = dateAt(axis, x)
  const first = days[0]
  // One entry a day without a gap, but for a sum of drains that never lay together.
  const guess = first ? days[daysBetween(first.date, date)] : undefined
  return guess?.date === date ? guess : days.find((day) => day.date === date)
}

/** What is said of one track on one day, each with its time. */
export const trackText = (points: readonly Point[], day: number): string =>
  points
    .filter(({ x }) => Math.floor(x) === day)
    .map(({ time, text }) => `${time} ${text}`)
    .join('; ')

/** What is said of an output's day: its volume, how much of it is known, and what it is held against. */
export function outputText(picture: Picture, output: Output, day: number): string {
  const { axis } = picture
  const known = dayOf(picture, output, day)
  return [
    known ? `${known.netMl === null ? '' : 'net '}${dayVolume(known, day === axis.count - 1)}` : '',
    slowText(picture, output, day),
    courseText(picture, output, day),
  ]
    .filter(Boolean)
    .join('; ')
}

export function slowText(picture: Picture, output: Output, day: number): string {
  const chart = slowOf(picture, output)?.chart
  const average = chart?.days.find(({ date }) => date === dateAt(picture.axis, day))?.averageMl
  return chart && average !== undefined ? `slow-change average ${average}, limit ${chart.limitMl}` : ''
}

export function courseText(picture: Picture, output: Output, day: number): string {
  const since = daysBetween(output.placed, dateAt(picture.axis, day))
  const usual = courseOf(picture, output)?.days.find((one) => one.day === since)
  if (!usual) return ''
  const [median, q1, q3] = [usual.median, usual.q1, usual.q3].map(Math.round)
  return `usual course here ${median} (middle half ${q1} to ${q3}, ${usual.n} drains)`
}

/** The newest numbers of an output. @example newestText(…) // 'Mon 23 Nov 210 mL, today 35 mL so far, 7 of 24 h covered' */
export function newestText({ axis }: Pick<Picture, 'axis'>, { days }: Output): string {
  const last = days.findLast(({ complete }) => complete)
  const today = days.find(({ date }) => date === dateAt(axis, axis.count - 1))
  return [
    last ? `${weekday(last.date)} ${dayMonth(last.date)} ${dayVolume(last, false)}` : '',
    today && today !== last ? `today ${dayVolume(today, true)}` : '',
  ]
    .filter(Boolean)
    .join(', ')
}

/** Flags that stood at some time of a day. */
export const flagsText = ({ tracks }: Pick<Picture, 'tracks'>, day: number): string =>
  tracks.flags
    .filter(({ from, to }) => from < day + 1 && to >= day)
    .map(({ name }) => name)
    .join('; ')

/**
 * Everything that the chart shows of one day, a line a matter: for the pointer, the live text and the table.
 * @param day the day's place on the axis, a whole number
 */
export function dayLines(picture: Picture, day: number): string[] {
  const { axis, outputs, tracks } = picture
  const date = dateAt(axis, day)
  const head = `${weekday(date)} ${dayMonth(date)}`
  const several = outputs.length > 1
  if (day >= axis.count)
    return [
      `${head}, still to come`,
      ...outputs.flatMap(({ label, projection }) =>
        projection ? [`${several ? `${label}: ` : ''}${projectionText(projection).replace('\n', ', ')}`] : [],
      ),
    ]
  return [
    head,
    ...outputs.flatMap((output) => {
      const text = outputText(picture, output, day)
      return text ? [`${several ? `${output.label}: ` : ''}${text}`] : []
    }),
    ...TRACKS.flatMap((track) => {
      const text = trackText(tracks[track], day)
      return text ? [`${titles[track]}: ${text}`] : []
    }),
    ...[flagsText(picture, day)].filter(Boolean).map((text) => `Flags: ${text}`),
  ]
}
