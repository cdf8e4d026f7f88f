'use client'

import { useState } from 'react'
import type { LineFault } from '@/lib/domain/import-file.ts'
import { Scroll } from '../parts/scroll.tsx'
import css from './import.module.css'

/** So many are shown at first: a column with a wrong unit is at fault in every line. */
const FIRST = 200

/** What is wrong, line by line, with what was given and what is accepted. */
export function FaultTable({ faults }: { faults: readonly LineFault[] }) {
  const [all, setAll] = useState(false)
  const shown = all ? faults : faults.slice(0, FIRST)
  return (
    <>
      <Scroll label="Faults, line by line">
        <table className={css.table}>
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">Column</th>
              <th scope="col">Given</th>
              <th scope="col">What is wrong</th>
            </tr>
          </thead>
          <tbody>
            {shown.map(({ line, column, value, message }, i) => (
              // The list never changes its order, and two faults of one line can say the same.
              <tr key={i}>
                <td>{line}</td>
                <td>{column ?? 'whole line'}</td>
                <td className={css.given}>{value ?? '–'}</td>
                <td>{message}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {shown.length < faults.length ? (
        <p>
          <button type="button" onClick={() => setAll(true)}>
            Show all {faults.length.toLocaleString('en')}
          </button>
        </p>
      ) : null}
    </>
  )
}
