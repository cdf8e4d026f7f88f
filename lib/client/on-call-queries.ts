import { queryOptions } from '@tanstack/react-query'
import { AfterHoursPage } from '../domain/after-hours.ts'
import { RotaPage } from '../domain/rota.ts'
import { ask } from './ask.ts'

export const rotaQuery = queryOptions({
  queryKey: ['rota'],
  queryFn: ({ signal }) => ask('/api/rota', RotaPage, { signal }),
})

export const afterHoursQuery = queryOptions({
  queryKey: ['after-hours'],
  queryFn: ({ signal }) => ask('/api/after-hours', AfterHoursPage, { signal }),
})
