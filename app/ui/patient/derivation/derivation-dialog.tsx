'use client'

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { dayDerivationQuery } from '@/lib/client/day-derivation-query.ts'
import type { DayDerivation } from '@/lib/domain/day-derivation.ts'
import { addDays, clockTime, dayAndTime, fullDate, localDate, weekday } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { cautions } from '@/lib/domain/project.ts'
import form from '../../parts/form.module.css'
import { PatientDialog } from '../patient-dialog.tsx'
import css from './derivation.module.css'
import { DerivationTable } from './derivation-table.tsx'
import { leftOutLines, reportedLines, sumText } from './derivation-text.ts'

export type DayOfDrain = { drain: string; date: string }
type Props = { page: PatientPage; first: DayOfDrain; onClose: () => void }

/** How a day's net output was computed: what was reported, the stretches that it makes, and the part of each in the day. */
export function DerivationDialog({ page, first, onClose }: Props) {
  const [date, setDate] = useState(first.date)
  const [drain, setDrain] = useState(first.drain)
  const { patient, record, labels } = page
  const { data, error, refetch } = useQuery(dayDerivationQuery(patient.id, drain, date))
  const firstOf = (of: string) => {
    const placed = record.drains.find(({ id }) => id === of)?.placedAt
    return placed ? localDate(placed, record.timeZone) : date
  }
  const earliest = firstOf(drain)
  const latest = localDate(page.asOf, record.timeZone)
  const label = labels[drain]?.label ?? drain
  const choose = (other: string) => {
    setDrain(other)
    if (date < firstOf(other)) setDate(firstOf(other))
  }
  return (
    <PatientDialog
      wide
      patient={patient}
      title={`How ${weekday(date)} ${fullDate(date)} was computed, ${label}:`}
      onClose={onClose}
    >
      <div className={css.body} aria-busy={!data && !error}>
        {record.drains.length > 1 ? (
          <fieldset className={form.choices} aria-label="Drain">
            {record.drains.map(({ id }) => (
              <button
                key={id}
                type="button"
                data-quiet
                aria-pressed={id === drain}
                className={id === drain ? css.chosen : undefined}
                onClick={() => choose(id)}
              >
                {labels[id]?.label ?? id}
              </button>
            ))}
          </fieldset>
        ) : null}
        {error ? (
          <p role="alert" className={form.fault}>
            {error.message}
          </p>
        ) : (
          <p role="status" className={css.sum}>
            {data ? sumText(data) : 'Reading…'}
          </p>
        )}
        {data && !error ? <Derivation derivation={data} /> : null}
        <p className={css.note}>{cautions}</p>
      </div>
      <div className={form.actions}>
        <button
          type="button"
          aria-disabled={date <= earliest}
          onClick={() => (date > earliest ? setDate(addDays(date, -1)) : undefined)}
        >
          Day before
        </button>
        <button
          type="button"
          aria-disabled={date >= latest}
          onClick={() => (date < latest ? setDate(addDays(date, 1)) : undefined)}
        >
          Day after
        </button>
        {error ? (
          <button type="button" onClick={() => void refetch()}>
            Try again
          </button>
        ) : null}
        <button type="button" data-main onClick={onClose}>
          Close
        </button>
      </div>
    </PatientDialog>
  )
}

function Derivation({ derivation }: { derivation: DayDerivation }) {
  const { timeZone, asOf, ruleSet } = derivation
  const reported = reportedLines(derivation)
  const leftOut = leftOutLines(derivation)
  return (
    <>
      <DerivationTable derivation={derivation} />
      <div className={css.lists}>
        <Lines
          title="What was reported"
          none="Nothing was reported of this day."
          lines={reported}
          zone={timeZone}
        />
        {leftOut.length > 0 ? <Lines title="Left out" none="" lines={leftOut} zone={timeZone} /> : null}
      </div>
      <p className={css.note}>
        Flushes given from one emptying to the next are taken off what comes at the next. What is net is
        spread evenly over the real hours between them, and each day gets its part. Parts are shown to a tenth
        of a mL and added up unrounded. Days and times of {timeZone.replaceAll('_', ' ')}; as of{' '}
        {clockTime(asOf, timeZone)}; rule set {ruleSet}.
      </p>
    </>
  )
}

type LinesProps = { title: string; none: string; lines: ReturnType<typeof reportedLines>; zone: string }

function Lines({ title, none, lines, zone }: LinesProps) {
  return (
    <section>
      <h3>{title}</h3>
      {lines.length === 0 ? <p className={css.quiet}>{none}</p> : null}
      <ul>
        {lines.map(({ key, at, text, from }) => (
          <li key={key}>
            <b>{dayAndTime(at, zone)}</b> {text} <span className={css.quiet}>({from})</span>
          </li>
        ))}
      </ul>
    </section>
  )
}
