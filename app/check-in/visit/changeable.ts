import type { CheckInView, OwnReport } from '@/lib/domain/check-in.ts'
import type { Waiting } from '../keep/keep.ts'
import { standing } from './line.ts'

/** What can be changed: reports that wait on this phone, and those that the clinic has, the newest first. */
export function changeable(view: CheckInView, waits: Waiting[]): { waiting: Waiting[]; sent: OwnReport[] } {
  const corrected = new Set(waits.map(({ body }) => body.supersedes))
  return {
    waiting: standing(waits).toReversed(),
    sent: view.ownReports.filter(({ report }) => !corrected.has(report)),
  }
}
