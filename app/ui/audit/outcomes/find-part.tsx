'use client'

import { useState } from 'react'
import { useFound } from '@/lib/client/use-found.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { TextField } from '../../parts/text-field.tsx'
import audit from '../audit.module.css'
import css from './outcomes.module.css'

/** An event of anybody, at any time. */
export function FindPart({ onChosen }: { onChosen: (patientId: string) => void }) {
  const [wanted, setWanted] = useState('')
  const { data, error } = useFound(wanted)
  return (
    <section aria-labelledby="anybody" className={audit.panel}>
      <h2 id="anybody">An event of any patient</h2>
      <TextField
        label="Name or record number"
        type="search"
        size={28}
        maxLength={100}
        value={wanted}
        onChange={setWanted}
      />
      <div role="status">
        {error ? <p>{error.message}</p> : null}
        {data?.length === 0 ? <p>Nobody found.</p> : null}
      </div>
      <ul className={css.lines}>
        {data?.map(({ patientId, name, birthDate, recordNumber }) => (
          <li key={patientId}>
            <button type="button" onClick={() => onChosen(patientId)}>
              {name} · {fullDate(birthDate)} · {recordNumber}
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
