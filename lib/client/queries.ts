import { queryOptions } from '@tanstack/react-query'
import { DischargeList } from '../domain/discharge.ts'
import { PatientPage } from '../domain/patient-page.ts'
import { ask } from './ask.ts'
import { patientDoor } from './patient-door.ts'

/** Without an event a page is read again this often: deadlines pass by themselves. */
const EVERY_MS = 5 * 60_000

export const patientQuery = (id: string) =>
  queryOptions({
    queryKey: ['patient', id],
    queryFn: ({ signal }) => ask(patientDoor(id), PatientPage, { signal }),
    refetchInterval: EVERY_MS,
    staleTime: 5_000,
  })

export const dischargesQuery = queryOptions({
  queryKey: ['discharges'],
  queryFn: ({ signal }) => ask('/api/discharges', DischargeList, { signal }),
  staleTime: 5_000,
})
