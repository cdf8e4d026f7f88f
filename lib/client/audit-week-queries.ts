import { queryOptions } from '@tanstack/react-query'
import { ItemPage, WeekPage, Weeks } from '../domain/week-page.ts'
import { ask } from './ask.ts'

export const weeksQuery = queryOptions({
  queryKey: ['audit', 'weeks'],
  queryFn: ({ signal }) => ask('/api/audit/weeks', Weeks, { signal }),
  staleTime: 5_000,
})

/** The items of a week do not change by themselves: they are read again after an own verdict. */
export const weekQuery = (week: string) =>
  queryOptions({
    queryKey: ['audit', 'week', week],
    queryFn: ({ signal }) => ask(`/api/audit/weeks/${encodeURIComponent(week)}`, WeekPage, { signal }),
    staleTime: Number.POSITIVE_INFINITY,
  })

export const reviewDoor = (item: string) => `/api/audit/reviews/${encodeURIComponent(item)}`

export const itemQuery = (item: string) =>
  queryOptions({
    queryKey: ['audit', 'item', item],
    queryFn: ({ signal }) => ask(reviewDoor(item), ItemPage, { signal }),
    staleTime: Number.POSITIVE_INFINITY,
  })
