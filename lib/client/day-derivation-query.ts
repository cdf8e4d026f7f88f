import { queryOptions } from '@tanstack/react-query'
import { DayDerivation } from '../domain/day-derivation.ts'
import { ask } from './ask.ts'
import { patientDoor } from './patient-door.ts'

/** How one day of one drain came about. Under the patient's key, so that a new report has it read again. */
export const dayDerivationQuery = (id: string, drain: string, date: string) =>
  queryOptions({
    queryKey: ['patient', id, 'day', drain, date],
    queryFn: ({ signal }) =>
      ask(`${patientDoor(id)}/days/${encodeURIComponent(drain)}/${date}`, DayDerivation, { signal }),
    staleTime: 5_000,
  })
