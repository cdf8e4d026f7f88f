import { useQueries, useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import { courseQuery, slowChangeQuery } from '@/lib/client/timeline-queries.ts'
import type { KindCourse } from '@/lib/domain/kind-course.ts'
import { daysBetween, fullDate, localDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { type Axis, axesOf, type Range, xOf } from './axis.ts'
import { happeningsOf } from './happenings.ts'
import { type Mode, type Output, outputsOf, shownDrains } from './outputs.ts'
import { daysAhead, type Picture } from './picture.ts'
import { reachSays } from './reach.ts'
import { tracksOf } from './tracks.ts'

export type Wishes = { range: Range; mode: Mode; slow: boolean; course: boolean }

/** The picture of a patient's page for what is wished for, but for the part that is looked at; and what could not be had. */
export function usePicture(
  page: PatientPage,
  { range, mode, slow, course }: Wishes,
  hasEarlierFailed: boolean,
) {
  const now = Date.parse(page.asOf)
  const { timeZone: zone } = page.record
  const drains = useMemo(() => shownDrains(page), [page])
  const happenings = useMemo(() => happeningsOf(page), [page])
  const outputs = useMemo(() => outputsOf(page, mode), [page, mode])
  const { wanted, here: axis } = useMemo(() => {
    const placed = outputs.map((one) => one.placed).toSorted()[0] ?? localDate(page.record.enrolledAt, zone)
    const ahead = daysAhead(outputs, now, zone)
    return axesOf(range, placed, page.leftOut?.before ?? null, { now, zone, ahead })
  }, [outputs, page.record.enrolledAt, page.leftOut, range, now, zone])
  const tracks = useMemo(() => tracksOf(happenings, axis), [happenings, axis])

  const slowAnswer = useQuery(slowChangeQuery(page.patient.id, slow))
  const courses = useQueries({
    queries: drains.map(({ id }) => courseQuery(page.patient.id, id, course)),
    combine: (answers) => ({
      failed: answers.some(({ isError }) => isError),
      waiting: answers.some(({ isFetching }) => isFetching),
      data: answers.map(({ data }) => data ?? null),
    }),
  })

  const extra = useMemo(
    () => ({
      slow: new Map(slow ? (slowAnswer.data ?? []).map((one) => [one.drain, one]) : []),
      courses: new Map(
        course
          ? drains.flatMap(({ id }, i): [string, KindCourse][] => {
              const one = courses.data[i]
              return one ? [[id, one]] : []
            })
          : [],
      ),
    }),
    [slow, slowAnswer.data, course, courses.data, drains],
  )
  const picture = useMemo(
    (): Omit<Picture, 'shown'> => ({
      ...{ axis, outputs, tracks, ...extra },
      feverC: page.limits.feverC,
      nowX: xOf(axis, now),
    }),
    [axis, outputs, tracks, extra, page.limits.feverC, now],
  )
  const isMissing = wanted.first < axis.first
  return {
    picture,
    drains,
    /** Whether days are wished for that are left out of the page. */
    isMissing,
    says: [
      ...(isMissing
        ? [
            `Shown from ${fullDate(axis.first)}; the days since ${fullDate(wanted.first)} ${hasEarlierFailed ? 'could not be read' : 'are being read'}.`,
          ]
        : []),
      ...reachSays(page, axis),
      ...(slow ? slowSays(slowAnswer, outputs) : []),
      ...(course && courses.failed ? ['The usual course could not be read.'] : []),
      ...(course && !courses.failed && !courses.waiting
        ? courseSays(drains, extra.courses, outputs, axis)
        : []),
    ],
  }
}

type SlowAnswer = { isError: boolean; data?: readonly { drain: string; why: string | null }[] | undefined }

function slowSays({ isError, data }: SlowAnswer, outputs: Picture['outputs']): string[] {
  if (isError) return ['The slow-change chart could not be read.']
  const single = outputs.filter(({ drains }) => drains.length === 1)
  const whys = (data ?? []).flatMap(({ drain, why }) => {
    const label = single.find(({ id }) => id === drain)?.label
    return why && label ? [`No slow-change chart of ${label.toLowerCase()}. ${why}`] : []
  })
  const isDrawn = data?.some(({ why }) => why === null) ?? false
  return [
    ...(isDrawn
      ? ['Dark line: slow-change average of whole days; dotted: the limit under which it is a finding.']
      : []),
    ...whys,
    ...(single.length < outputs.length ? ['A sum has no slow-change chart.'] : []),
  ]
}

function courseSays(
  drains: readonly { id: string }[],
  courses: ReadonlyMap<string, KindCourse>,
  outputs: Picture['outputs'],
  axis: Axis,
): string[] {
  const without = drains.filter(({ id }) => !courses.has(id))
  const sums = outputs.some((output) => output.drains.length > 1)
  return [
    ...(courses.size > 0
      ? [
          'Grey boxes: middle half of this kind of drain in this clinic, by day since placement; line: median.',
        ]
      : []),
    ...(without.length > 0
      ? [
          `Usual course not shown${without.length < drains.length ? ' of every drain' : ''}: it takes 10 patients of a kind in this clinic.`,
        ]
      : []),
    ...new Set(outputs.flatMap((output) => oneCourseSays(output, courses.get(output.id), axis))),
    ...(sums ? ['A sum has no usual course.'] : []),
  ]
}

/** Whose course it is, and on which of the days in sight there is none. */
function oneCourseSays(output: Output, course: KindCourse | undefined, axis: Axis): string[] {
  if (!course || output.drains.length > 1) return []
  const ageAtFirst = daysBetween(output.placed, axis.first)
  const known = new Set(course.days.map(({ day }) => day))
  const ages = Array.from({ length: axis.count }, (_, x) => ageAtFirst + x).filter((age) => age >= 0)
  const shown = ages.filter((age) => known.has(age)).length
  const what = `Usual course: median and quartiles of ${course.drains} drains of the kind in this clinic; this patient’s own may be among them.`
  if (shown === 0)
    return ['Usual course not shown on these days: it takes 10 patients of a kind in this clinic.']
  return [
    shown < ages.length ? `${what} Days since placement with fewer than 10 patients are left out.` : what,
  ]
}
