'use client'

import { type KeyboardEvent, useRef } from 'react'
import { kindLabels } from '@/lib/domain/labels.ts'
import { daysBetween, localDate } from '@/lib/domain/local-time.ts'
import { type DueInquiry, inquiryLabels } from '@/lib/domain/outcomes-page.ts'
import { Key } from '../../parts/key.tsx'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { PatientHead } from '../patient-head.tsx'
import { dueText } from './words.ts'

type Props = {
  due: readonly DueInquiry[]
  asOf: string
  isSending: boolean
  keysOn: boolean
  onAnswer: (due: DueInquiry, answer: 'none' | 'unknown') => void
  onEvents: (due: DueInquiry) => void
}

const rowId = ({ patientId, about }: DueInquiry) => `${patientId} ${about}`

/** Of whom it is due to ask. In a row 1, 2 and 3 answer, the arrows go to the next one. */
export function DueTable({ due, asOf, isSending, keysOn, onAnswer, onEvents }: Props) {
  const table = useRef<HTMLTableElement>(null)
  const buttonsAt = (i: number) =>
    table.current?.querySelectorAll<HTMLButtonElement>('tbody tr')[i]?.querySelector('button')
  const press = (i: number, one: DueInquiry) => (event: KeyboardEvent) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.repeat) return
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0
    if (step !== 0) {
      const next = buttonsAt(i + step)
      next?.focus()
      if (next) event.preventDefault()
      return
    }
    if (!keysOn || !['1', '2', '3'].includes(event.key)) return
    event.preventDefault()
    if (event.key === '3')
      return onEvents(one)
      // The row goes with its answer: the focus goes on to the next one first.
    ;(buttonsAt(i + 1) ?? buttonsAt(i - 1))?.focus()
    onAnswer(one, event.key === '1' ? 'none' : 'unknown')
  }
  return (
    <Scroll label="Due to be asked">
      <table ref={table} className={audit.table}>
        <caption>Due to be asked, the longest first</caption>
        <thead>
          <tr>
            <th scope="col">Due</th>
            <th scope="col">Patient</th>
            <th scope="col">Drains</th>
            <th scope="col">On record</th>
            <th scope="col" className={audit.doing}>
              What became of them
            </th>
          </tr>
        </thead>
        <tbody>
          {due.map((one, i) => (
            <tr key={rowId(one)} onKeyDown={press(i, one)}>
              <td>
                <b>{inquiryLabels[one.about]}</b>
                <span className={audit.quiet}>due {dueText(one, asOf)}</span>
              </td>
              <PatientHead of={one} />
              <td>
                {one.drains.map(({ id, label, kind, placedAt }) => (
                  <div key={id}>
                    {label}, {kindLabels[kind].toLowerCase()}, placed{' '}
                    {daysBetween(localDate(placedAt, one.timeZone), localDate(asOf, one.timeZone))} days ago
                  </div>
                ))}
              </td>
              <td>{one.known === 0 ? '–' : one.known}</td>
              <td className={audit.doing}>
                {one.known > 0 ? null : (
                  <button
                    type="button"
                    aria-disabled={isSending}
                    aria-keyshortcuts="1"
                    onClick={() => onAnswer(one, 'none')}
                  >
                    None <Key on={keysOn}>1</Key>
                    <span className="for-reader"> of {one.name}</span>
                  </button>
                )}
                <button
                  type="button"
                  aria-disabled={isSending}
                  aria-keyshortcuts="2"
                  onClick={() => onAnswer(one, 'unknown')}
                >
                  Not known <Key on={keysOn}>2</Key>
                  <span className="for-reader"> of {one.name}</span>
                </button>
                <button type="button" aria-keyshortcuts="3" onClick={() => onEvents(one)}>
                  Events <Key on={keysOn}>3</Key>
                  <span className="for-reader"> of {one.name}</span>
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
