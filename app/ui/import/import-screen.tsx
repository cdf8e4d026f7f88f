'use client'

import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { sendFile } from '@/lib/client/send-file.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { IMPORT_MAX_BYTES, IMPORT_MAX_LINES, type ImportProgress } from '@/lib/domain/import-file.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { ColumnTable } from './column-table.tsx'
import { FaultTable } from './fault-table.tsx'
import css from './import.module.css'
import { outcomeText, plural, progressText } from './words.ts'

const mebibytes = IMPORT_MAX_BYTES / 1024 / 1024

/** Choose a file, look at it, take it in: the last only once it was looked at and every line is as it is accepted. */
export function ImportScreen({ zone }: { zone: string }) {
  const client = useQueryClient()
  const [file, setFile] = useState<File | null>(null)
  const [progress, setProgress] = useState<ImportProgress | null>(null)
  const send = useMutation({
    mutationFn: ({ file, dryRun }: { file: File; dryRun: boolean }) => sendFile(file, dryRun, setProgress),
    onMutate: () => setProgress(null),
    onSuccess: ({ dryRun }) => (dryRun ? undefined : void client.invalidateQueries()),
  })
  const outcome = send.data
  const isReady = outcome?.dryRun === true && outcome.faults.length === 0 && outcome.reports > 0
  const start = (dryRun: boolean) => {
    if (file && !send.isPending) send.mutate({ file, dryRun })
  }
  return (
    <div className={css.room}>
      <h1>Import reports</h1>
      <p className={css.about}>
        A CSV file of readings, flushes, dressings and symptoms: from a paper log that was typed, or from
        another system. At most {IMPORT_MAX_LINES.toLocaleString('en')} lines and {mebibytes} MB a file.
        Nothing is stored while one line is at fault; what was taken in before adds nothing.
      </p>
      <form
        className={css.choose}
        onSubmit={(event) => {
          event.preventDefault()
          start(true)
        }}
      >
        <Field label="File">
          {(wired) => (
            <input
              {...wired}
              type="file"
              accept=".csv,text/csv"
              onChange={(event) => {
                setFile(event.target.files?.[0] ?? null)
                setProgress(null)
                send.reset()
              }}
            />
          )}
        </Field>
        <p className={form.row}>
          <button
            type="submit"
            data-main={isReady ? undefined : true}
            aria-disabled={!file || send.isPending}
          >
            Check the file
          </button>
          {isReady ? (
            <button type="button" data-main onClick={() => start(false)} aria-disabled={send.isPending}>
              Import {plural(outcome.reports, 'report')}
            </button>
          ) : null}
        </p>
      </form>
      {send.isPending ? <Progress progress={progress} /> : null}
      {send.error ? (
        <p role="alert" className={form.fault}>
          {faultFrom(send.error).text}
        </p>
      ) : null}
      <section aria-labelledby={outcome ? 'outcome' : undefined} className={css.outcome}>
        <div role="status">{outcome ? <h2 id="outcome">{outcomeText(outcome, zone)}</h2> : null}</div>
        {outcome && outcome.faults.length > 0 ? <FaultTable faults={outcome.faults} /> : null}
      </section>
      <ColumnTable />
    </div>
  )
}

function Progress({ progress }: { progress: ImportProgress | null }) {
  const text = progressText(progress)
  return (
    <div className={css.progress}>
      <progress aria-label="Progress" max={Math.max(1, progress?.of ?? 1)} value={progress?.done} />
      <p>{text}</p>
    </div>
  )
}
