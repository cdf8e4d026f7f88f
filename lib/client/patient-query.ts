import { queryOptions } from '@tanstack/react-query'
import { type PageReach, PatientPage } from '../domain/patient-page.ts'
import { ask } from './ask.ts'
import { patientDoor } from './patient-door.ts'

/** Without an event a page is read again this often: deadlines pass by themselves. */
const EVERY_MS = 5 * 60_000

/** A patient's page; the whole record under the patient's key, so that a new report has it read again, too. */
export const patientQuery = (id: string, reach: PageReach = 'recent') =>
  queryOptions({
    queryKey: reach === 'recent' ? ['patient', id] : ['patient', id, reach],
    queryFn: ({ signal }) => ask(`${patientDoor(id)}?reach=${reach}`, PatientPage, { signal }),
    refetchInterval: EVERY_MS,
    staleTime: 5_000,
  })
