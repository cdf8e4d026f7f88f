import type { ReplayedLife, ReplayPatient } from '@/lib/domain/replay.ts'
import { urgencyRank } from '@/lib/domain/words.ts'

/** One finding of one drain: the spans in which its flags stood, under what was in force and under what was replayed. */
export type Lane = { key: string; code: ReplayedLife['code']; drain: string | null; bars: Bar[] }
export type Bar = {
  side: 'inForce' | 'draft'
  x: number
  width: number
  rank: 1 | 2 | 3 | 4
  isAlone: boolean
}

const ms = (instant: string) => Date.parse(instant)
/** What is shorter than this is drawn as wide as this, in the drawing's units. */
const LEAST = 3

/** Where an instant lies on an axis from 0 to `width`; what lies outside the period lies on its edge. */
export const placeOf = ({ from, until }: Pick<ReplayPatient, 'from' | 'until'>, width: number) => {
  const [start, end] = [ms(from), ms(until)]
  return (instant: string) =>
    (Math.min(Math.max(ms(instant), start), end) - start) * (width / Math.max(1, end - start))
}

/** The flags as bars, a lane for each finding of each drain, in the order in which the first of it opened. */
export function lanesOf(courses: ReplayPatient, width: number): Lane[] {
  const place = placeOf(courses, width)
  const lanes = new Map<string, Lane>()
  for (const pair of courses.flags) {
    const isAlone = pair.inForce === null || pair.draft === null
    for (const side of ['inForce', 'draft'] as const) {
      const life = pair[side]
      if (!life) continue
      const { code, drain, urgency, spans } = life
      const key = `${code} ${drain ?? ''}`
      const lane = lanes.get(key) ?? { key, code, drain, bars: [] }
      lanes.set(key, lane)
      for (const span of spans) {
        if (ms(span.from) > ms(courses.until) || (span.to && ms(span.to) < ms(courses.from))) continue
        const x = place(span.from)
        const end = place(span.to ?? courses.until)
        const rank = urgencyRank[urgency] as Bar['rank']
        lane.bars.push({ side, x, width: Math.max(LEAST, end - x), rank, isAlone })
      }
    }
  }
  return [...lanes.values()]
}
