'use client'

import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { FileOutcome } from '@/lib/domain/discharge.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import css from './discharges.module.css'

const people = (n: number) => (n === 1 ? '1 person' : `${n} people`)

function outcomeText({ lines, added, known, enrolled }: FileOutcome): string {
  const passed = [
    known > 0 ? `${people(known)} on the list already` : '',
    enrolled > 0 ? `${people(enrolled)} in follow-up already` : '',
  ].filter(Boolean)
  return `${people(lines)} in the file: ${added} new${passed.length > 0 ? `; passed over: ${passed.join(', ')}` : ''}.`
}

/** A file from the hospital's own system: looked at line by line first, then taken in whole. */
export function FileForm({ onDone }: { onDone: (says: string) => void }) {
  const client = useQueryClient()
  const [csv, setCsv] = useState<string | null>(null)
  const [key] = useState(newKey)
  const post = (text: string, dryRun: boolean) =>
    ask('/api/discharges/file', FileOutcome, { method: 'POST', key, body: { csv: text, dryRun } })
  const look = useMutation({ mutationFn: (text: string) => post(text, true) })
  const take = useMutation({
    mutationFn: (text: string) => post(text, false),
    onSuccess: (outcome) => {
      void client.invalidateQueries()
      onDone(`The file is taken in. ${outcomeText(outcome)}`)
    },
  })
  const choose = async (file: File | undefined) => {
    take.reset()
    look.reset()
    setCsv(null)
    if (!file) return
    const text = await file.text()
    setCsv(text)
    look.mutate(text)
  }
  const outcome = look.data
  const isBusy = look.isPending || take.isPending
  const error = look.error ?? take.error
  const fault = error ? faultFrom(error) : null
  return (
    <section className={css.part} aria-labelledby="from-file">
      <h2 id="from-file">From a file</h2>
      <Field
        label="CSV file"
        hint="Its first line names the columns: record_number, name, birth_date, phone, discharged_at, drain_kind, note. Days as 2026-11-24. It is looked at first; nothing is added while a line is at fault, and the same file twice adds nothing."
      >
        {(wired) => (
          <input
            {...wired}
            type="file"
            accept=".csv,text/csv"
            onChange={(event) => void choose(event.target.files?.[0])}
          />
        )}
      </Field>
      <div role="status">
        {look.isPending ? <p>Looking at the file.</p> : null}
        {outcome && outcome.faults.length === 0 ? <p>{outcomeText(outcome)}</p> : null}
        {outcome && outcome.faults.length > 0 ? (
          <>
            <p className={form.fault}>
              {outcome.faults.length === 1 ? '1 fault' : `${outcome.faults.length} faults`}; nothing was
              added. Put them right in the file and choose it again.
            </p>
            <ul className={css.faults}>
              {outcome.faults.map(({ line, column, message }) => (
                <li key={`${line} ${column} ${message}`}>
                  Line {line}, {column}: {message}
                </li>
              ))}
            </ul>
          </>
        ) : null}
      </div>
      {fault ? (
        <div role="alert" className={form.fault}>
          <p>{fault.text}</p>
          {fault.fields.map(({ field, message }) => (
            <p key={field}>{message}</p>
          ))}
        </div>
      ) : null}
      {csv !== null && outcome && outcome.faults.length === 0 && outcome.added > 0 ? (
        <p>
          <button type="button" aria-disabled={isBusy} onClick={() => !isBusy && take.mutate(csv)}>
            {take.isPending ? 'Sending' : `Put ${people(outcome.added)} on the list`}
          </button>
        </p>
      ) : null}
    </section>
  )
}
