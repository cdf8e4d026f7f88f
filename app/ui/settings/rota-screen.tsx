'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { rotaQuery } from '@/lib/client/on-call-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { dayAndTime, duration } from '@/lib/domain/local-time.ts'
import { RotaPage, type Shift } from '@/lib/domain/rota.ts'
import form from '../parts/form.module.css'
import { Scroll } from '../parts/scroll.tsx'
import css from './rota.module.css'
import { RotaForm } from './rota-form.tsx'
import settings from './settings.module.css'

/** Who is on call from when to when, and where nobody is. */
export function RotaScreen({ zone }: { zone: string }) {
  const { data } = useSuspenseQuery(rotaQuery)
  const [says, setSays] = useState('')
  const [forms, setForms] = useState(0)
  return (
    <>
      <h1>On-call rota</h1>
      <p className={form.hint}>
        Who is told outside opening hours of what cannot wait. Times are clinic time ({zone}). Rank 1 is told
        first; where they do not say ‘I have it’ in time, the next.
      </p>
      <Gaps page={data} zone={zone} />
      <p>{data.now.length > 0 ? `On call now: ${data.now.join(', then ')}.` : 'Nobody is on call now.'}</p>
      <p role="status">{says}</p>
      <section className={settings.part} aria-labelledby="shifts">
        <h2 id="shifts">Shifts to come</h2>
        {data.shifts.length === 0 ? (
          <p className={settings.quiet}>None.</p>
        ) : (
          <Shifts shifts={data.shifts} zone={zone} onSays={setSays} />
        )}
      </section>
      <section className={settings.part} aria-labelledby="add">
        <h2 id="add">Add a shift</h2>
        <RotaForm
          key={`${forms} ${data.gaps?.[0]?.until ?? ''}`}
          page={data}
          zone={zone}
          onAdded={(name) => {
            setSays(`${name} is on the rota.`)
            setForms(forms + 1)
          }}
        />
      </section>
    </>
  )
}

/** The holes of the next 14 days outside opening hours, in plain sight. */
function Gaps({ page, zone }: { page: RotaPage; zone: string }) {
  if (page.gaps === null)
    return (
      <p className={settings.unread}>
        The clinic’s opening hours are not set: it counts as always open, and nobody on this rota is called.
        Set them under Clinic.
      </p>
    )
  if (page.gaps.length === 0)
    return <p>Somebody is on call at every hour outside opening hours of the next 14 days.</p>
  return (
    <div className={settings.unread}>
      <p>
        Nobody is on call in {page.gaps.length === 1 ? 'one stretch' : `${page.gaps.length} stretches`}{' '}
        outside opening hours of the next 14 days:
      </p>
      <ul className={css.gaps}>
        {page.gaps.map(({ from, until }) => (
          <li key={from}>
            {dayAndTime(from, zone)} to {dayAndTime(until, zone)} (
            {duration(Date.parse(until) - Date.parse(from))})
          </li>
        ))}
      </ul>
    </div>
  )
}

type ShiftsProps = { shifts: readonly Shift[]; zone: string; onSays: (says: string) => void }

function Shifts({ shifts, zone, onSays }: ShiftsProps) {
  return (
    <Scroll label="Shifts to come, as a table">
      <table className={css.table}>
        <thead>
          <tr>
            {['From', 'Until', 'Rank', 'Name', 'E-mail', 'Phone'].map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
            <td />
          </tr>
        </thead>
        <tbody>
          {shifts.map((shift) => (
            <tr key={shift.id}>
              <td>{dayAndTime(shift.from, zone)}</td>
              <td>{dayAndTime(shift.until, zone)}</td>
              <td>{shift.rank}</td>
              <th scope="row">{shift.name}</th>
              <td>{shift.email ?? 'none'}</td>
              <td>{shift.phone ?? 'none'}</td>
              <td>
                <Remove
                  shift={shift}
                  zone={zone}
                  onRemoved={() => onSays(`${shift.name} is off the rota.`)}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

type RemoveProps = { shift: Shift; zone: string; onRemoved: () => void }

/** Asks once more: a shift that is taken out leaves a hole. */
function Remove({ shift, zone, onRemoved }: RemoveProps) {
  const [sure, setSure] = useState(false)
  const { send, isSending, fault } = useSend(
    `/api/rota/${encodeURIComponent(shift.id)}`,
    RotaPage,
    onRemoved,
    undefined,
    'DELETE',
  )
  const whose = (
    <span className="for-reader">
      {' '}
      the shift of {shift.name} from {dayAndTime(shift.from, zone)}
    </span>
  )
  return (
    <>
      {sure ? (
        <button type="button" onClick={() => send({})} aria-disabled={isSending}>
          Yes, remove{whose}
        </button>
      ) : (
        <button type="button" data-quiet onClick={() => setSure(true)}>
          Remove{whose}
        </button>
      )}
      {fault ? <p role="alert">{fault.text}</p> : null}
    </>
  )
}
