'use client'

import type { AlikePatient } from '@/lib/domain/alike.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { Choice, FieldFault } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import css from './enrol.module.css'

type Props = {
  alike: readonly AlikePatient[]
  notSameAs: readonly string[]
  onLooked: (notSameAs: string[]) => void
  fault: string | undefined
}

/** Patients with a like name and birth date: each has to be looked at before another person is enrolled. */
export function AlikeBox({ alike, notSameAs, onLooked, fault }: Props) {
  return (
    <div role="status" aria-label="Who is alike">
      {alike.length === 0 ? null : (
        <div className={css.alike}>
          <p>
            <strong>Is this the same person?</strong> A like name and birth date is here already.
          </p>
          <ul className={form.stack}>
            {alike.map(({ patientId, name, birthDate, recordNumber, followUpEndedAt }) => (
              <li key={patientId} className={css.alikeRow}>
                <span>
                  <strong>{name}</strong> · {fullDate(birthDate)} · {recordNumber}
                  {followUpEndedAt ? ' · follow-up has ended' : ''}
                </span>
                <a href={`/patients/${patientId}`} target="_blank" rel="noreferrer">
                  Open the chart<span className="for-reader"> of {name}</span> in a new tab
                </a>
                <Choice
                  type="checkbox"
                  checked={notSameAs.includes(patientId)}
                  invalid={Boolean(fault) && !notSameAs.includes(patientId)}
                  onChange={(looked) =>
                    onLooked(looked ? [...notSameAs, patientId] : notSameAs.filter((id) => id !== patientId))
                  }
                >
                  I looked: another person
                </Choice>
              </li>
            ))}
          </ul>
          <FieldFault text={fault} />
        </div>
      )}
    </div>
  )
}
