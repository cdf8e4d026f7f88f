import { queryOptions } from '@tanstack/react-query'
import { DischargeList } from '../domain/discharge.ts'
import { PatientPage } from '../domain/patient-page.ts'
import { Worklist } from '../domain/worklist.ts'
import { ask } from './ask.ts'

/** Without an event the list is read again this often: deadlines pass by themselves. */
const EVERY_MS = 60_000

const patientDoor = (id: string) => `/api/patients/${encodeURIComponent(id)}`

export const worklistQuery = queryOptions({
  queryKey: ['worklist'],
  queryFn: ({ signal }) => ask('/api/worklist', Worklist, { signal }),
  refetchInterval: EVERY_MS,
  staleTime: 5_000,
})

export const patientQuery = (id: string) =>
  queryOptions({
    queryKey: ['patient', id],
    queryFn: ({ signal }) => ask(patientDoor(id), PatientPage, { signal }),
    refetchInterval: 5 * EVERY_MS,
    staleTime: 5_000,
  })

export const dischargesQuery = queryOptions({
  queryKey: ['discharges'],
  queryFn: ({ signal }) => ask('/api/discharges', DischargeList, { signal }),
  staleTime: 5_000,
})

export { patientDoor }
