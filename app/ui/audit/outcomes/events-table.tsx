import { dayAndTime } from '@/lib/domain/local-time.ts'
import { outsideEventLabels, type ShownEvent } from '@/lib/domain/outcomes-page.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { PatientHead } from '../patient-head.tsx'
import css from './outcomes.module.css'
import { matchText } from './words.ts'

/** The events that were recorded last, each with the flag before it. */
export function EventsTable({
  events,
  onWithdraw,
}: {
  events: readonly ShownEvent[]
  onWithdraw: (shown: ShownEvent) => void
}) {
  if (events.length === 0) return <p>None recorded yet.</p>
  return (
    <Scroll label="Events recorded last">
      <table className={audit.table}>
        <caption>Recorded last</caption>
        <thead>
          <tr>
            <th scope="col">Event</th>
            <th scope="col">Patient</th>
            <th scope="col">Flag before it</th>
            <th scope="col">From</th>
            <th scope="col" className={audit.doing}>
              What to do
            </th>
          </tr>
        </thead>
        <tbody>
          {events.map((shown) => {
            const { event, name, timeZone, drain } = shown
            return (
              <tr key={event.id}>
                <td>
                  <b>{outsideEventLabels[event.kind]}</b>, {dayAndTime(event.at, timeZone)}
                  {drain ? `, ${drain}` : ''}
                  {event.note ? <div className={css.note}>{event.note}</div> : null}
                </td>
                <PatientHead of={shown} />
                <td>
                  {event.withdrawnAt ? 'withdrawn' : matchText(shown)}
                  {event.withdrawnAt ? (
                    <div className={css.note}>
                      {event.withdrawnBy ?? 'somebody'}, {dayAndTime(event.withdrawnAt, timeZone)}
                      {event.withdrawnWhy ? `: ${event.withdrawnWhy}` : ''}
                    </div>
                  ) : null}
                </td>
                <td>
                  {event.source === 'staff' ? event.by : `a file, ${event.by}`}
                  <span className={audit.quiet}>{dayAndTime(event.recordedAt, timeZone)}</span>
                </td>
                <td className={audit.doing}>
                  {event.withdrawnAt ? null : (
                    <button type="button" onClick={() => onWithdraw(shown)}>
                      Withdraw
                      <span className="for-reader">
                        {' '}
                        {outsideEventLabels[event.kind]} of {name}
                      </span>
                    </button>
                  )}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </Scroll>
  )
}
