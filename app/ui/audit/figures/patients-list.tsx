'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useId, useState } from 'react'
import { behindQuery } from '@/lib/client/figures-queries.ts'
import type { Period, ShownFigure } from '@/lib/domain/figures.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { Select } from '../../parts/select.tsx'
import audit from '../audit.module.css'
import css from './figures.module.css'

/** Who stands behind a figure, asked for by a press: who looks is recorded. */
export function PatientsList({ figure, span }: { figure: ShownFigure; span: Period }) {
  const { name, label, patients, counted, counts, parts } = figure
  const [isOpen, setOpen] = useState(false)
  const [part, setPart] = useState('')
  const id = useId()
  const { data, error } = useQuery({
    ...behindQuery({ figure: name, part: part === '' ? null : part, ...span }),
    enabled: isOpen,
  })
  if (patients === 0) return <p className={audit.quiet}>No patient stands behind it.</p>
  return (
    <div className={css.behind}>
      <button type="button" aria-expanded={isOpen} aria-controls={id} onClick={() => setOpen(!isOpen)}>
        The patients behind it: {patients}
      </button>
      <div id={id} hidden={!isOpen}>
        {parts.length > 0 ? (
          <div className={css.of}>
            <label htmlFor={`${id}-part`}>Of which</label>
            <Select
              id={`${id}-part`}
              value={part}
              onChange={setPart}
              empty="all"
              labels={Object.fromEntries(parts.map((one) => [one.key, one.label]))}
            />
          </div>
        ) : null}
        <p role="status" className={audit.quiet}>
          {error
            ? error.message
            : data === undefined
              ? isOpen
                ? 'Reading'
                : ''
              : data.all > data.patients.length
                ? `The first ${data.patients.length} of ${data.all}. Those in ‘${counts.numerator}’ come first.`
                : `${data.all}${part === '' ? `, of whom ${counted} are in ‘${counts.numerator}’; they come first` : ''}.`}
        </p>
        {data ? (
          <ul aria-label={`Patients behind: ${label}`} className={css.patients}>
            {data.patients.map(({ patientId, name: who, birthDate, recordNumber, isCounted }) => (
              <li key={patientId}>
                <Link
                  href={`/patients/${patientId}`}
                  prefetch={false}
                  className={isCounted ? css.in : undefined}
                >
                  {who}
                </Link>{' '}
                <span className={audit.quiet}>
                  {fullDate(birthDate)} · {recordNumber}
                  {isCounted ? '' : ' · not in the numerator'}
                </span>
              </li>
            ))}
          </ul>
        ) : null}
      </div>
    </div>
  )
}
