import { agreedLabels, outcomeLabels, spokenLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import css from './patient.module.css'

/** Every attempt to call, the newest first. */
export function CallsList({ page }: { page: PatientPage }) {
  const zone = page.clinic.timeZone
  const calls = page.callbacks.toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at))
  return (
    <section aria-labelledby="calls" className={css.section}>
      <h2 id="calls">Calls</h2>
      {calls.length === 0 ? <p className={css.quiet}>None recorded.</p> : null}
      <ul className={css.list}>
        {calls.map(({ id, at, by, outcome, spokenTo, agreed, closes, lookAgainAt, note }) => (
          <li key={id}>
            <h3>
              {dayAndTime(at, zone)} · {by} · {outcomeLabels[outcome]}
              {spokenTo ? <span className={css.plain}> ({spokenLabels[spokenTo].toLowerCase()})</span> : null}
            </h3>
            {agreed.length > 0 ? (
              <p>Agreed: {agreed.map((one) => agreedLabels[one].toLowerCase()).join(', ')}.</p>
            ) : null}
            {lookAgainAt ? <p>Look again {dayAndTime(lookAgainAt, zone)}.</p> : null}
            {note ? <p>“{note}”</p> : null}
            {closes.length > 0 ? (
              <p className={css.quiet}>
                Closed {closes.length === 1 ? 'one flag' : `${closes.length} flags`}.
              </p>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  )
}
