import { queryOptions } from '@tanstack/react-query'
import { HandoverPage } from '../domain/handover.ts'
import { ask } from './ask.ts'

/** Below the worklist's own key: whatever changes a row of it changes the page for the next shift. */
export const handoverQuery = queryOptions({
  queryKey: ['worklist', 'handover'],
  queryFn: ({ signal }) => ask('/api/handovers', HandoverPage, { signal }),
  refetchInterval: 60_000,
  staleTime: 5_000,
})

export const handoverDoor = (id: string) => `/api/handovers/${encodeURIComponent(id)}`
