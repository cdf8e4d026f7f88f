import { eventLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { KeptStaffEvent } from '@/lib/domain/staff-event.ts'
import css from './patient.module.css'
import { useMore } from './use-more.tsx'

type Props = { page: PatientPage; onWithdraw: ((event: KeptStaffEvent) => void) | null }

/** What staff did to the drains, the latest recorded first. What was withdrawn is struck out and stays readable. */
export function EventsList({ page, onWithdraw }: Props) {
  const zone = page.clinic.timeZone
  const [shown, more] = useMore(page.events, 'events')
  return (
    <section aria-labelledby="events" className={css.section}>
      <h2 id="events">Events</h2>
      {page.events.length === 0 ? <p className={css.quiet}>None recorded.</p> : null}
      <ul className={css.list}>
        {shown.map((event) => (
          <li key={event.id}>
            <OneEvent event={event} page={page} />
            {event.withdrawnAt !== null ? (
              <p>
                {event.withdrawnWhy === null ? 'Taken back' : 'Withdrawn'}{' '}
                {dayAndTime(event.withdrawnAt, zone)} by {event.withdrawnBy ?? 'somebody'}
                {event.withdrawnWhy === null ? '.' : `: “${event.withdrawnWhy}”`}
              </p>
            ) : event.callback === null && onWithdraw ? (
              <button type="button" data-quiet onClick={() => onWithdraw(event)}>
                Withdraw
                <span className="for-reader">
                  {' '}
                  the event {eventLabels[event.type].toLowerCase()} of {dayAndTime(event.at, zone)}
                </span>
              </button>
            ) : null}
          </li>
        ))}
      </ul>
      {more}
    </section>
  )
}

function OneEvent({ event, page }: { event: KeptStaffEvent; page: PatientPage }) {
  const { at, drain, type, note, recordedAt, by, withdrawnAt } = event
  const zone = page.clinic.timeZone
  const says = (
    <>
      <h3>
        {dayAndTime(at, zone)} · {eventLabels[type]}
        {drain ? `, ${page.labels[drain]?.label ?? drain}` : ''}
        <span className={css.plain}>
          {' '}
          · {by}
          {dayAndTime(recordedAt, zone) === dayAndTime(at, zone)
            ? ''
            : `, recorded ${dayAndTime(recordedAt, zone)}`}
        </span>
      </h3>
      {note ? <p>“{note}”</p> : null}
    </>
  )
  return withdrawnAt === null ? says : <del className={css.struck}>{says}</del>
}
