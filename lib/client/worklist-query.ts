import { queryOptions } from '@tanstack/react-query'
import { Worklist } from '../domain/worklist.ts'
import { ask } from './ask.ts'

/** Without an event the list is read again this often: deadlines pass by themselves. */
const EVERY_MS = 60_000

/** In a file of its own: the worklist's page is light, and the shape of a whole patient is not. */
export const worklistQuery = queryOptions({
  queryKey: ['worklist'],
  queryFn: ({ signal }) => ask('/api/worklist', Worklist, { signal }),
  refetchInterval: EVERY_MS,
  staleTime: 5_000,
})
