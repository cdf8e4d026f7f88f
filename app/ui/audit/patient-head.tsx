import Link from 'next/link'
import type { LocalDate } from '@/lib/domain/instant.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import css from './audit.module.css'

type Patient = { patientId: string; name: string; birthDate: LocalDate; recordNumber: string }

/** The head of a row that is about one patient: who it is, and the way to the patient's page. */
export function PatientHead({ of }: { of: Patient }) {
  const { patientId, name, birthDate, recordNumber } = of
  return (
    <th scope="row">
      <Link href={`/patients/${patientId}`} prefetch={false}>
        {name}
      </Link>
      <span className={css.quiet}>
        {fullDate(birthDate)} · <span className={css.id}>{recordNumber}</span>
      </span>
    </th>
  )
}
