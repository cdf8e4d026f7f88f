import { addDays, daysBetween } from '@/lib/domain/local-time.ts'
import { courseText, dayOf, flagsText, slowText, trackText } from './day-text.ts'
import { dayVolume } from './days.ts'
import { projectionText } from './extra-series.ts'
import type { Track } from './happenings.ts'
import type { Picture } from './picture.ts'

export type TableRow = {
  date: string
  output: string[]
  /** The slow-change average and the usual course of each output; empty texts unless they were asked for. */
  extra: string[]
  flags: string
} & Record<Track, string>

/** The chart as a table, the newest day first: the same days, the same words, one row a day. */
export function tableRows(picture: Picture): TableRow[] {
  const { axis, outputs, tracks } = picture
  return Array.from({ length: axis.count }, (_, i) => axis.count - 1 - i).map((day) => {
    const of = (track: Track) => trackText(tracks[track], day)
    return {
      date: addDays(axis.first, day),
      output: outputs.map((output) => {
        const known = dayOf(picture, output, day)
        return known ? dayVolume(known, day === axis.count - 1) : ''
      }),
      extra: outputs.map((output) =>
        [slowText(picture, output, day), courseText(picture, output, day)].filter(Boolean).join('; '),
      ),
      flush: of('flush'),
      dressing: of('dressing'),
      temperature: of('temperature'),
      pain: of('pain'),
      signs: of('signs'),
      site: of('site'),
      events: of('events'),
      calls: of('calls'),
      flags: flagsText(picture, day),
    }
  })
}

/** What the chart draws across all days: what is usual, the levels, and what is expected, a sentence an output. */
export function levelTexts({ axis, outputs, feverC }: Picture): { id: string; text: string }[] {
  return [
    ...outputs.map(({ id, label, usual, isProvisional, limits, projection, placed }) => {
      const said = [
        usual === null
          ? 'usual not known'
          : `usual ${Math.round(usual)} mL a day${isProvisional ? ', the ward’s figure, provisional' : ''}`,
        ...limits.map(({ says }) => says),
        ...(projection ? [projectionText(projection).replace('\n', ', ')] : []),
        `day ${daysBetween(placed, addDays(axis.first, axis.count - 1)) + 1} since placement`,
      ]
      return { id, text: `${label}: ${said.join('; ')}.` }
    }),
    { id: 'fever', text: `Fever from ${feverC} °C.` },
  ]
}
