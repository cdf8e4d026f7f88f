import { clockTime } from '../domain/local-time.ts'
import { downtimeTrouble } from './downtime-timer.ts'

/** What the head of the worklist says when the list for a downtime cannot be written. */
export function downtimeNotes(clinicId: string, zone: string): string[] {
  const trouble = downtimeTrouble(clinicId)
  if (!trouble) return []
  return [
    `The list for a downtime cannot be written to its folder since ${clockTime(trouble.sinceMs, zone)} (${trouble.why}): print this page if the server may stop.`,
  ]
}
