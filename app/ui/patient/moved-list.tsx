import Link from 'next/link'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import css from './patient.module.css'

/** The reports that were filed under the wrong patient: where they went or came from, who moved them, when and why. */
export function MovedList({ page: { moves, clinic } }: { page: PatientPage }) {
  if (moves.length === 0) return null
  const time = (at: string) => dayAndTime(at, clinic.timeZone)
  return (
    <ul className={css.list} aria-label="Reports that were moved">
      {moves.map(({ report, direction, receivedAt, at, by, why, other }) => (
        <li key={`${report} ${direction}`}>
          <p>
            The report received {time(receivedAt)} was moved {direction}{' '}
            <Link href={`/patients/${other.patientId}`} prefetch={false}>
              {other.name}
            </Link>
            , {other.recordNumber}, by {by}, {time(at)}: “{why}”
          </p>
        </li>
      ))}
    </ul>
  )
}
