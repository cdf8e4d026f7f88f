'use client'

import { useMutation, useQueryClient, useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { ask } from '@/lib/client/ask.ts'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { patientQuery } from '@/lib/client/patient-query.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { pasted } from '@/lib/domain/paper-paste.ts'
import { isEmptyRow, PAPER_MAX_ROWS, PaperOutcome } from '@/lib/domain/paper-sheet.ts'
import { Choice, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import css from './paper.module.css'
import { PaperGrid } from './paper-grid.tsx'
import { PasteBox } from './paste-box.tsx'
import { Questions } from './questions.tsx'
import { newSheet, type Sheet, sheetRow, useSheet, withPasted } from './use-sheet.ts'

/** The paper log of one patient: rows typed or pasted, looked at one by one, then stored whole or not at all. */
export function PaperScreen({ id, staffId }: { id: string; staffId: string }) {
  const { data: page } = useSuspenseQuery(patientQuery(id))
  const client = useQueryClient()
  const { sheet, setSheet, isRead } = useSheet(staffId, id)
  const [text, setText] = useState('')
  const [says, setSays] = useState('')
  const send = useMutation({
    mutationFn: ({ sheet, dry }: { sheet: Sheet; dry: boolean }) =>
      ask(`${patientDoor(id)}/paper`, PaperOutcome, {
        method: 'POST',
        key: sheet.key,
        body: bodyOf(sheet, dry),
      }),
    onSuccess: ({ stored, reports, rows }) => {
      if (!stored) return
      setSheet(newSheet())
      setText('')
      setSays(
        `Stored: ${plural(reports, 'report')} from ${plural(rows, 'row')}. They stand on the patient’s page.`,
      )
      void client.invalidateQueries()
    },
  })
  const outcome = send.data?.stored === false ? send.data : null
  const fault = send.error ? faultFrom(send.error) : null
  const change = (next: Sheet) => {
    setSheet(next)
    setSays('')
    send.reset()
  }
  const lay = (pastedText: string) => {
    const { rows, left, tooMany } = pasted(pastedText)
    const next = tooMany === null ? withPasted(sheet, rows) : null
    if (next === null)
      return setSays(
        `That makes ${plural(tooMany ?? rows.length, 'row')}: one sheet takes at most ${PAPER_MAX_ROWS}. Nothing was laid into the sheet, and nothing is lost: divide it, or use Import for a long history.`,
      )
    change(next)
    setText('')
    setSays(
      `${plural(rows.length, 'row')} laid into the sheet; nothing is stored yet.${left.length > 0 ? ` Left out, since there is no such column: ${left.slice(0, 8).join(', ')}.` : ''}`,
    )
  }
  const start = (dry: boolean) => {
    if (!send.isPending) send.mutate({ sheet, dry })
  }
  const isEmpty = sheet.rows.every(({ cells }) => isEmptyRow(cells))
  const { patient } = page
  return (
    <div className={css.room}>
      <div className={css.title}>
        <h1>Paper log of {patient.name}</h1>
        <p>
          {fullDate(patient.birthDate)} · {patient.recordNumber} ·{' '}
          <Link href={`/patients/${id}`} prefetch={false}>
            patient’s page
          </Link>
        </p>
      </div>
      <p className={css.about}>
        One row for each time; several days at once. Times are the patient’s own (
        {patient.timeZone.replaceAll('_', ' ')}). What was not written stays empty; ? in mL means that it
        could not be measured. Nothing is stored while one row is at fault.
        {page.record.drains.length > 1
          ? ` Drains: ${page.record.drains.map(({ id }, i) => `${i + 1} ${page.labels[id]?.label ?? ''}`).join(', ')}.`
          : ''}
      </p>
      <PasteBox text={text} onText={setText} onLay={lay} />
      <p role="status" className={css.says}>
        {says}
      </p>
      <PaperGrid
        rows={sheet.rows}
        faults={outcome?.faults ?? []}
        onCell={(rows) => change({ ...sheet, rows })}
        onPaste={lay}
      />
      <div className={css.after}>
        <button
          type="button"
          data-quiet
          disabled={!isRead || sheet.rows.length >= PAPER_MAX_ROWS}
          onClick={() => setSheet({ ...sheet, rows: [...sheet.rows, sheetRow()] })}
        >
          Another row
        </button>
        <Group legend="Stored as">
          <Choice
            type="radio"
            name="by"
            checked={sheet.by === 'day'}
            onChange={() => change({ ...sheet, by: 'day' })}
          >
            one report a day
          </Choice>
          <Choice
            type="radio"
            name="by"
            checked={sheet.by === 'row'}
            onChange={() => change({ ...sheet, by: 'row' })}
          >
            one report a row
          </Choice>
        </Group>
      </div>
      <Questions
        asks={outcome?.asks ?? null}
        answers={sheet.answers}
        onAnswer={(part) => setSheet({ ...sheet, answers: { ...sheet.answers, ...part } })}
      />
      {outcome ? <Found outcome={outcome} /> : null}
      {fault ? (
        <div role="alert" className={form.trouble}>
          <p>{fault.text}</p>
          {fault.fields.slice(0, 5).map(({ field, message }) => (
            <p key={field}>
              {field} {message}
            </p>
          ))}
        </div>
      ) : null}
      <div className={css.steps}>
        <button type="button" onClick={() => start(true)} aria-disabled={send.isPending} disabled={isEmpty}>
          {send.isPending ? 'Looking' : 'Check the rows'}
        </button>
        <button
          type="button"
          data-main
          onClick={() => start(false)}
          aria-disabled={send.isPending}
          disabled={isEmpty}
        >
          Store the rows
        </button>
        <button type="button" data-quiet disabled={isEmpty} onClick={() => change(newSheet())}>
          Empty the sheet
        </button>
      </div>
    </div>
  )
}

function bodyOf({ rows, by, answers }: Sheet, dry: boolean) {
  // Empty rows go along, so that a row keeps its number; those at the end say nothing.
  const last = rows.findLastIndex(({ cells }) => !isEmptyRow(cells))
  return { rows: rows.slice(0, last + 1).map(({ cells }) => cells), by, answers, dry }
}

const plural = (count: number, what: string) =>
  `${count.toLocaleString('en')} ${what}${count === 1 ? '' : 's'}`

/** What the check found, in one sentence. */
function Found({ outcome: { rows, reports, faults, asks } }: { outcome: PaperOutcome }) {
  const asked = asks.volumeUnit || asks.temperatureUnit || asks.dateOrder
  const bad = new Set(faults.map(({ row }) => row)).size
  const text =
    bad > 0
      ? `${plural(bad, 'row')} at fault, marked in the sheet; nothing is stored.`
      : asked
        ? 'Something must be answered first; nothing is stored.'
        : `${plural(rows, 'row')} as accepted: ${plural(reports, 'report')} to be stored.`
  return (
    <p role="alert" className={bad > 0 ? form.fault : undefined}>
      {text}
    </p>
  )
}
