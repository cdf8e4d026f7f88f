import { queryOptions } from '@tanstack/react-query'
import { KindCourse } from '../domain/kind-course.ts'
import { SlowChanges } from '../domain/slow-change.ts'
import { ask } from './ask.ts'
import { patientDoor } from './patient-door.ts'

/** The slow-change charts of a patient's drains. Under the patient's key, so that a new report has them read again. */
export const slowChangeQuery = (id: string, wanted: boolean) =>
  queryOptions({
    queryKey: ['patient', id, 'slow-change'],
    queryFn: ({ signal }) => ask(`${patientDoor(id)}/slow-change`, SlowChanges, { signal }),
    enabled: wanted,
    staleTime: 5_000,
  })

/** The usual course of a drain's kind in the clinic; null where too few patients count. It is worked out once a night. */
export const courseQuery = (id: string, drain: string, wanted: boolean) =>
  queryOptions({
    queryKey: ['course', id, drain],
    queryFn: ({ signal }) =>
      ask(`${patientDoor(id)}/course?drain=${encodeURIComponent(drain)}`, KindCourse.nullable(), { signal }),
    enabled: wanted,
    staleTime: 60 * 60_000,
  })
