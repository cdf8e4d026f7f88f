import { capital } from '@/lib/domain/capital.ts'
import { visitLabels, visitStateLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PageVisit, PatientPage } from '@/lib/domain/patient-page.ts'

/** A visit that is still to come, or was: requested, or booked. */
export const isOpenVisit = ({ state }: Pick<PageVisit, 'state'>): boolean =>
  state === 'requested' || state === 'booked'

/** @example 'exchange booked Tue 24 Nov, 10:00; it has passed' */
export function visitWhat(
  { kind, state, bookedFor }: PageVisit,
  { clinic }: Pick<PatientPage, 'clinic'>,
  now: number,
): string {
  const what = `${visitLabels[kind].toLowerCase()} ${visitStateLabels[state]}`
  if (state !== 'booked' || bookedFor === null) return what
  return `${what} ${dayAndTime(bookedFor, clinic.timeZone)}${Date.parse(bookedFor) <= now ? '; it has passed' : ''}`
}

/** The same with the drain's name before it. */
export const visitText = (
  visit: PageVisit,
  page: Pick<PatientPage, 'labels' | 'clinic'>,
  now: number,
): string => `${capital(page.labels[visit.drain]?.label ?? visit.drain)}: ${visitWhat(visit, page, now)}`
