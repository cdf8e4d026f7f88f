'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { afterHoursQuery } from '@/lib/client/on-call-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { type AfterHours, AfterHoursPage, standardAfterHours } from '@/lib/domain/after-hours.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import form from '../parts/form.module.css'
import { AfterHoursRow } from './after-hours-row.tsx'
import settings from './settings.module.css'

/** Who is told of what by which way, in and outside opening hours: one table for the clinic. */
export function AfterHoursScreen({ zone }: { zone: string }) {
  const { data } = useSuspenseQuery(afterHoursQuery)
  const [says, setSays] = useState('')
  return (
    <>
      <h1>After hours</h1>
      <p className={form.hint}>
        {data.changedAt && data.changedBy
          ? `Last changed ${dayAndTime(data.changedAt, zone)} by ${data.changedBy}.`
          : 'Not changed since the clinic was set up.'}{' '}
        {data.isStandard
          ? 'What stands here is the standard.'
          : 'It differs from the standard, which stands beside it.'}{' '}
        No published source was found for these numbers: they are a local choice, and the clinic’s own to
        make.
      </p>
      {data.hoursAreSet ? null : (
        <p className={settings.unread}>
          The clinic’s opening hours are not set: it counts as always open, so that nobody is called after
          hours.
        </p>
      )}
      {data.troubles.map((trouble) => (
        <p key={trouble} className={settings.unread}>
          {trouble}
        </p>
      ))}
      <p role="status">{says}</p>
      <TableForm key={data.changedAt ?? 'first'} page={data} onSaved={() => setSays('The table is saved.')} />
    </>
  )
}

const parts = [
  { hours: 'closed', title: 'Outside opening hours' },
  { hours: 'open', title: 'In opening hours' },
] as const
const urgencies = ['at-once', 'within-1h'] as const

function TableForm({ page, onSaved }: { page: AfterHoursPage; onSaved: () => void }) {
  const [table, setTable] = useState<AfterHours>(page.table)
  const { send, isSending, fault } = useSend('/api/after-hours', AfterHoursPage, onSaved)
  return (
    <form
      noValidate
      className={settings.form}
      onSubmit={(event) => {
        event.preventDefault()
        if (!fault?.stored) send(table)
      }}
    >
      {parts.map(({ hours, title }) => (
        <section key={hours} className={settings.part} aria-labelledby={hours}>
          <h2 id={hours}>{title}</h2>
          {urgencies.map((urgency) => (
            <AfterHoursRow
              key={urgency}
              path={`${hours}.${urgency}`}
              urgency={urgency}
              cell={table[hours][urgency]}
              standard={standardAfterHours[hours][urgency]}
              fault={fault}
              onChange={(cell) => setTable({ ...table, [hours]: { ...table[hours], [urgency]: cell } })}
            />
          ))}
          <p className={settings.quiet}>
            Within 24 hours and within 3 days: nobody. What can wait for a day stands on the worklist, and is
            called about at no patient’s night.
          </p>
        </section>
      ))}
      {fault ? (
        <p role="alert" className={form.trouble}>
          {fault.text}
        </p>
      ) : null}
      <p>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Saving' : 'Save the table'}
        </button>{' '}
        <button type="button" data-quiet onClick={() => setTable(standardAfterHours)}>
          Fill in the standard
        </button>
      </p>
    </form>
  )
}
