import { queryOptions } from '@tanstack/react-query'
import { OutcomePatient, OutcomesPage } from '../domain/outcomes-page.ts'
import { EventFileOutcome } from '../domain/outside-event-file.ts'
import { Problem } from '../domain/problem.ts'
import { ask, RefusedError, UnreachableError } from './ask.ts'
import { patientDoor } from './patient-door.ts'

export const outcomesQuery = queryOptions({
  queryKey: ['outcomes'],
  queryFn: ({ signal }) => ask('/api/audit/outcomes', OutcomesPage, { signal }),
  staleTime: 5_000,
})

export const eventsDoor = (patientId: string) => `${patientDoor(patientId)}/outside-events`
export const inquiryDoor = (patientId: string) => `/api/audit/outcomes/${encodeURIComponent(patientId)}`

export const outcomePatientQuery = (patientId: string) =>
  queryOptions({
    queryKey: ['outcomes', patientId],
    queryFn: ({ signal }) => ask(eventsDoor(patientId), OutcomePatient, { signal }),
    staleTime: 5_000,
  })

/**
 * Sends a file of outside events.
 * @throws RefusedError with the problem document, UnreachableError where no answer came
 */
export async function sendEventFile(file: File, dryRun: boolean): Promise<EventFileOutcome> {
  const asked = new URLSearchParams({ name: file.name, dry: dryRun ? '1' : '0' })
  const response = await fetch(`/api/audit/outcomes/file?${asked}`, {
    method: 'POST',
    headers: { 'Content-Type': 'text/csv' },
    body: file,
  }).catch(() => {
    throw new UnreachableError()
  })
  const value: unknown = await response.json().catch(() => null)
  const outcome = EventFileOutcome.safeParse(value)
  if (response.ok && outcome.success) return outcome.data
  const problem = Problem.safeParse(value)
  if (!problem.success) throw new UnreachableError()
  throw new RefusedError(problem.data, response.status)
}
