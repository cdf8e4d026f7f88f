import { queryOptions } from '@tanstack/react-query'
import { Numbers } from '../domain/numbers.ts'
import { ask } from './ask.ts'

/** Read again each minute; not at each change, which would count the day for every report of a busy morning. */
export const numbersQuery = queryOptions({
  queryKey: ['numbers'],
  queryFn: ({ signal }) => ask('/api/numbers', Numbers, { signal }),
  refetchInterval: 60_000,
  staleTime: 5_000,
})
