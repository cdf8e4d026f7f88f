'use client'

import { fullDate, when } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { Marks } from '../parts/marks.tsx'
import { actByText, holdText } from '../worklist/row-text.ts'
import css from './patient.module.css'
import { lastHeard, pressing } from './standing.ts'

const stateOf = ({ followUp, admission }: PatientPage) => {
  if (followUp.endedAt !== null) return 'Follow-up has ended'
  return admission === null ? 'Nothing flagged' : 'In hospital, deadlines rest'
}

/** Who it is, by two identifiers, how soon, and who has the row. */
export function Title({ page, now, selfId }: { page: PatientPage; now: number; selfId: string }) {
  const { patient, clinic } = page
  const hasLeft = page.followUp.endedAt !== null && page.lateWord === null
  const { urgency, actBy } = pressing(hasLeft || page.admission !== null ? [] : page.flags)
  const { time, isNow, isOver, label, away, theirs } = actByText(
    { urgency, actBy, timeZone: patient.timeZone },
    now,
    clinic.timeZone,
  )
  const hold = holdText(page.hold, now, selfId)
  const heard = lastHeard(page.record.reports)
  const said = heard ? `last heard ${when(heard, now, clinic.timeZone)}` : 'not heard yet'
  return (
    <div className={css.title}>
      <h1>{patient.name}</h1>
      <p>
        {fullDate(patient.birthDate)} · {patient.recordNumber}
        {patient.phone ? ` · ${patient.phone}` : ''}
        {patient.language ? ` · ${patient.language}` : ''}
        {patient.interpreter ? ', interpreter' : ''}
      </p>
      <p className={isNow || isOver ? `${css.soon} ${css.over}` : css.soon}>
        {actBy ? <Marks urgency={urgency} large /> : null}
        {actBy ? (
          <b>
            {label}
            {isNow ? '' : `, by ${time}`} · {away}
          </b>
        ) : (
          `${stateOf(page)}; ${said}`
        )}
        {theirs ? <span className={css.quiet}> {theirs}</span> : null}
      </p>
      <p className={css.hold}>{hold ? `with ${hold.who}, ${hold.left} left` : 'with nobody'}</p>
    </div>
  )
}
