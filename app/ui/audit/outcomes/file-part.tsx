'use client'

import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { sendEventFile } from '@/lib/client/outcomes-queries.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { IMPORT_MAX_LINES } from '@/lib/domain/import-file.ts'
import { eventColumns } from '@/lib/domain/outside-event-file.ts'
import { Columns } from '../../import/columns.tsx'
import { FaultTable } from '../../import/fault-table.tsx'
import { Field } from '../../parts/field.tsx'
import form from '../../parts/form.module.css'
import audit from '../audit.module.css'
import { fileText } from './words.ts'

/** A file from the hospital's own system: looked at line by line first, then taken in whole. */
export function FilePart({ zone }: { zone: string }) {
  const client = useQueryClient()
  const [file, setFile] = useState<File | null>(null)
  const send = useMutation({
    mutationFn: ({ file, dryRun }: { file: File; dryRun: boolean }) => sendEventFile(file, dryRun),
    onSuccess: ({ dryRun }) => (dryRun ? undefined : client.invalidateQueries({ queryKey: ['outcomes'] })),
  })
  const outcome = send.data
  const isReady = outcome?.dryRun === true && outcome.faults.length === 0 && outcome.events > 0
  const choose = (chosen: File | undefined) => {
    send.reset()
    setFile(chosen ?? null)
    if (chosen) send.mutate({ file: chosen, dryRun: true })
  }
  return (
    <section aria-labelledby="from-file" className={audit.panel}>
      <h2 id="from-file">From a file</h2>
      <Field
        label="CSV file"
        hint={`At most ${IMPORT_MAX_LINES.toLocaleString('en')} lines. It is looked at first; nothing is stored while a line is at fault, and the same event twice adds nothing.`}
      >
        {(wired) => (
          <input
            {...wired}
            type="file"
            accept=".csv,text/csv"
            onChange={(event) => choose(event.target.files?.[0])}
          />
        )}
      </Field>
      <div role="status">
        {send.isPending ? <p>Looking at the file.</p> : null}
        {outcome && outcome.faults.length === 0 ? <p>{fileText(outcome, zone)}</p> : null}
        {outcome && outcome.faults.length > 0 ? (
          <p className={form.fault}>
            {outcome.faults.length === 1 ? '1 fault' : `${outcome.faults.length} faults`}; nothing was stored.
            Put them right in the file and choose it again.
          </p>
        ) : null}
      </div>
      {outcome && outcome.faults.length > 0 ? <FaultTable faults={outcome.faults} /> : null}
      {send.error ? (
        <p role="alert" className={form.fault}>
          {faultFrom(send.error).text}
        </p>
      ) : null}
      {isReady && file ? (
        <p>
          <button
            type="button"
            data-main
            aria-disabled={send.isPending}
            onClick={() => !send.isPending && send.mutate({ file, dryRun: false })}
          >
            {outcome.ends > 0 ? 'Take in the file and end follow-up of those who died' : 'Take in the file'}
          </button>
        </p>
      ) : null}
      <details>
        <summary>Columns of the file</summary>
        <Columns columns={eventColumns} className={audit.table} />
      </details>
    </section>
  )
}
