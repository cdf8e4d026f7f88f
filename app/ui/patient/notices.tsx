import Link from 'next/link'
import { endLabels } from '@/lib/domain/labels.ts'
import { dayAndTime, fullDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import css from './patient.module.css'

type Props = { page: PatientPage; staff: StaffMember; onResume: () => void }

/** What must be seen before anything else on the page: that follow-up has ended, and that others are called alike. */
export function Notices({ page, staff, onResume }: Props) {
  return (
    <>
      {page.followUp.endedAt === null ? null : <Ended page={page} staff={staff} onResume={onResume} />}
      <InHospital page={page} />
      <Alike page={page} />
    </>
  )
}

function Ended({ page, staff, onResume }: Props) {
  const { followUp, lateWord, clinic } = page
  const { endedAt, endedBy, reason, why, undoAskedBy, undoAskedById, undoWhy } = followUp
  if (endedAt === null || reason === null) return null
  const isOwnAsk = undoAskedById === staff.id
  return (
    <section className={css.notice} aria-label="Follow-up has ended">
      <p>
        <b>Follow-up has ended</b> {dayAndTime(endedAt, clinic.timeZone)}: {endLabels[reason].toLowerCase()}
        {endedBy ? `, recorded by ${endedBy}` : ''}.{why ? ` “${why}”` : ''} No message goes out; a report
        that comes still reaches the worklist.
      </p>
      {lateWord ? <p>On the worklist: {lateWord}. A recorded call ends that.</p> : null}
      {undoAskedBy ? (
        <p>
          {isOwnAsk ? 'You' : undoAskedBy} asked to undo the recorded death: “{undoWhy}”.{' '}
          {isOwnAsk ? 'Another person has to confirm it.' : 'It takes effect when you confirm it.'}
        </p>
      ) : null}
      {may(staff.role, 'end-follow-up') && !isOwnAsk ? (
        <button type="button" onClick={onResume}>
          {undoAskedBy ? 'Confirm, and go on' : 'Take back into follow-up'}
        </button>
      ) : null}
    </section>
  )
}

function InHospital({ page: { admission, clinic } }: { page: PatientPage }) {
  if (admission === null) return null
  return (
    <section className={css.notice} aria-label="In hospital">
      <p>
        <b>In hospital</b> since {dayAndTime(admission.since, clinic.timeZone)}
        {admission.place ? `, ${admission.place}` : ''}. Deadlines rest and no reminder goes out; what is
        flagged stays until every drain is confirmed.
      </p>
    </section>
  )
}

function Alike({ page: { alike } }: { page: PatientPage }) {
  if (alike.length === 0) return null
  return (
    <section className={css.notice} aria-label="Name alert">
      <p>
        <b>Name alert:</b> another patient has a like name and birth date. Check both identifiers.
      </p>
      <ul>
        {alike.map(({ patientId, name, birthDate, recordNumber, followUpEndedAt }) => (
          <li key={patientId}>
            <Link href={`/patients/${patientId}`} prefetch={false}>
              {name}
            </Link>{' '}
            {fullDate(birthDate)} · {recordNumber}
            {followUpEndedAt ? ' · follow-up has ended' : ''}
          </li>
        ))}
      </ul>
    </section>
  )
}
