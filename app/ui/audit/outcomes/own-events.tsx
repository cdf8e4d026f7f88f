'use client'

import { dayAndTime } from '@/lib/domain/local-time.ts'
import { type OutcomePatient, outsideEventLabels } from '@/lib/domain/outcomes-page.ts'
import audit from '../audit.module.css'
import css from './outcomes.module.css'

/** The events of a patient that are on record; those that were withdrawn stay in sight. */
export function OwnEvents({ patient }: { patient: OutcomePatient }) {
  const { events, drains, timeZone } = patient
  if (events.length === 0) return null
  const labelOf = (id: string | null) => drains.find((drain) => drain.id === id)?.label
  return (
    <div>
      <h3>On record</h3>
      <ul className={css.lines}>
        {events.map(({ id, kind, at, drain, note, withdrawnAt, withdrawnWhy }) => (
          <li key={id} className={withdrawnAt ? audit.quiet : undefined}>
            {withdrawnAt ? 'Withdrawn: ' : ''}
            {outsideEventLabels[kind]}, {dayAndTime(at, timeZone)}
            {labelOf(drain) ? `, ${labelOf(drain)}` : ''}
            {note ? `. ${note}` : ''}
            {withdrawnWhy ? `. Withdrawn because: ${withdrawnWhy}` : ''}
          </li>
        ))}
      </ul>
    </div>
  )
}
