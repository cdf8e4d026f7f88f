import { queryOptions } from '@tanstack/react-query'
import { DischargeList } from '../domain/discharge.ts'
import { ask } from './ask.ts'

export const dischargesQuery = queryOptions({
  queryKey: ['discharges'],
  queryFn: ({ signal }) => ask('/api/discharges', DischargeList, { signal }),
  staleTime: 5_000,
})
