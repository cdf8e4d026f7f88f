import type { KindCourse } from '@/lib/domain/kind-course.ts'
import { daysBetween, localDate } from '@/lib/domain/local-time.ts'
import type { SlowChange } from '@/lib/domain/slow-change.ts'
import type { Axis, Shown } from './axis.ts'
import type { Output } from './outputs.ts'
import type { Tracks } from './tracks.ts'

/** All that a chart, its tooltip and its table are made of. */
export type Picture = {
  axis: Axis
  shown: Shown
  outputs: readonly Output[]
  tracks: Tracks
  feverC: number
  /** Where now is on the axis. */
  nowX: number
  /** The slow-change charts, by drain; empty unless they were asked for. */
  slow: ReadonlyMap<string, SlowChange>
  /** The usual courses in this clinic, by drain; empty unless they were asked for. */
  courses: ReadonlyMap<string, KindCourse>
}

/** The slow-change chart of a strip; a sum has none. */
export const slowOf = ({ slow }: Pick<Picture, 'slow'>, { id, drains }: Output) =>
  drains.length === 1 ? (slow.get(id) ?? null) : null

/** The usual course of a strip; a sum has none. */
export const courseOf = ({ courses }: Pick<Picture, 'courses'>, { id, drains }: Output) =>
  drains.length === 1 ? (courses.get(id) ?? null) : null

/** How many days past today are needed to show when removal is expected. */
export const daysAhead = (outputs: readonly Output[], now: number, zone: string): number =>
  Math.max(
    0,
    ...outputs.map(({ projection }) =>
      projection
        ? daysBetween(localDate(now, zone), projection.latest ?? projection.date) +
          (projection.latest ? 1 : 3)
        : 0,
    ),
  )
