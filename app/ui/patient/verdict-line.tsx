import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { harmLabels, trulyLabels, verdictLabels } from '@/lib/domain/review-page.ts'
import css from './patient.module.css'

/** What the audit said of a flag, or of each of several that are shown as one. */
export function VerdictLine({ page, flagIds }: { page: PatientPage; flagIds: readonly string[] }) {
  const own = page.verdicts?.filter(({ flagId }) => flagIds.includes(flagId)) ?? []
  return own.map(({ flagId, verdict, truly, harm, note, by, at }) => (
    <p key={flagId} className={css.quiet}>
      <b>Audit: {verdictLabels[verdict].toLowerCase()}.</b>{' '}
      {truly ? `Really the matter: ${trulyLabels[truly].toLowerCase()}. ` : ''}
      {harmLabels[harm]}. {note ? `“${note}” ` : ''}
      {by}, {dayAndTime(at, page.clinic.timeZone)}
    </p>
  ))
}
