import { queryOptions } from '@tanstack/react-query'
import { MinutesPage } from '../domain/week-minutes.ts'
import { ask } from './ask.ts'

export const minutesDoor = (week: string) => `/api/audit/minutes/${encodeURIComponent(week)}`

export const minutesQuery = (week: string) =>
  queryOptions({
    queryKey: ['minutes', week],
    queryFn: ({ signal }) => ask(minutesDoor(week), MinutesPage, { signal }),
    // What is signed is what was read: the page does not change under whoever reads it.
    staleTime: Number.POSITIVE_INFINITY,
  })
