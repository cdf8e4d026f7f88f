import type { Submission } from '../../lib/domain/submission.ts'
import { addReports } from '../../lib/store/add-report.ts'
import { write } from '../../lib/store/index.ts'
import { CLINIC, iso } from '../store/clinic.ts'

let count = 0

/** Puts reports into the store as they were received, without the assessment that a door would make of each. */
export const storeReports = (patientId: string, reports: readonly { hours: number; says: Submission }[]) =>
  write((tx) =>
    addReports(
      tx,
      reports.map(({ hours, says }) => {
        const id = `stored-${++count}`
        const receivedAt = iso(hours)
        return {
          head: {
            ...{ id, clinicId: CLINIC, patientId, receivedAt, timeZone: 'America/Denver', door: 'import' },
            ...{ source: 'test', reporter: 'patient', sentBy: null, linkId: null, enteredBy: null },
            ...{ key: id, bodyHash: '', receipt: { receipt: id, report: id, receivedAt, advice: [] } },
          } as Parameters<typeof addReports>[1][number]['head'],
          says,
        }
      }),
    ),
  )
