'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import { isRefusal } from '@/lib/client/ask.ts'
import { worklistQuery } from '@/lib/client/queries.ts'
import { useServerNow } from '@/lib/client/server-time.ts'
import { useHold } from '@/lib/client/use-hold.ts'
import { useLive } from '@/lib/client/use-live.ts'
import type { StaffMember } from '@/lib/domain/staff.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { CallbackDialog } from '../callback/callback-dialog.tsx'
import { Connection } from './connection.tsx'
import { Counts, SumLine } from './counts.tsx'
import { DayStrip } from './day-strip.tsx'
import { type Desk, DeskProvider } from './desk.tsx'
import { FoundOthers } from './found-others.tsx'
import { Hints } from './hints.tsx'
import { newsOf } from './news.ts'
import { OverruleDialog } from './overrule-dialog.tsx'
import { RowsTable } from './rows-table.tsx'
import { countUpkeep, findRows } from './tally.ts'
import { useKeyChoice } from './use-key-choice.ts'
import { useKeys } from './use-keys.ts'
import css from './worklist.module.css'

type Open = { what: 'call' | 'overrule'; row: WorklistRow } | null

/** The worklist, live: whom to call first, why, and by when. The page brings the first answer along. */
export function WorklistScreen({ staff }: { staff: StaffMember }) {
  const { data, error, refetch } = useSuspenseQuery(worklistQuery)
  const live = useLive()
  const now = useServerNow(data.asOf)
  const hold = useHold()
  const [open, setOpen] = useState<Open>(null)
  const [wanted, setWanted] = useState('')
  const [says, setSays] = useState('')
  const room = useRef<HTMLDivElement>(null)
  const find = useRef<HTMLInputElement>(null)
  const [keysOn, turnKeys] = useKeyChoice()

  const seen = useRef(data.rows)
  useEffect(() => {
    const names = newsOf(seen.current, data.rows, staff.id)
    seen.current = data.rows
    if (names.length > 0) setSays(`New from ${names.join(' and ')}, whom you have taken: read the row again.`)
  }, [data.rows, staff.id])

  const { mutate, isPending, variables } = hold
  const step = useCallback(
    (row: WorklistRow, wish: 'take' | 'release') => {
      if (isPending) return
      setSays('')
      mutate(
        { patientId: row.patientId, step: wish },
        {
          onSuccess: () =>
            setSays(wish === 'take' ? `${row.name} is with you.` : `${row.name} is given back.`),
          onError: (error) =>
            setSays(isRefusal(error, 'taken') ? `${row.name}: ${error.message}` : error.message),
        },
      )
    },
    [mutate, isPending],
  )
  const takeById = useCallback(
    (id: string) => {
      const row = data.rows.find(({ patientId }) => patientId === id)
      if (row) step(row, 'take')
    },
    [data.rows, step],
  )
  useKeys({ room, find, take: takeById, on: keysOn })

  const { timeZone: clinicZone } = data.clinic
  const desk: Desk = {
    now,
    clinicZone,
    staff,
    busy: isPending ? (variables?.patientId ?? null) : null,
    take: (row) => step(row, 'take'),
    release: (row) => step(row, 'release'),
    overrule: (row) => setOpen({ what: 'overrule', row }),
    call: (row) => setOpen({ what: 'call', row }),
  }
  const clinical = useMemo(() => data.rows.filter(({ part }) => part === 'clinical'), [data.rows])
  const upkeep = useMemo(() => data.rows.filter(({ part }) => part === 'upkeep'), [data.rows])
  const shown = useMemo(() => findRows(clinical, wanted), [clinical, wanted])
  const shownUpkeep = useMemo(() => findRows(upkeep, wanted), [upkeep, wanted])
  const hidden = clinical.length - shown.length
  const onList = useMemo(() => new Set(data.rows.map(({ patientId }) => patientId)), [data.rows])

  return (
    <DeskProvider value={desk}>
      <div ref={room}>
        <h1 className="for-reader">Worklist</h1>
        <Connection
          live={live}
          error={error}
          asOf={data.asOf}
          now={now}
          zone={clinicZone}
          onTry={() => void refetch()}
        />
        <DayStrip rows={clinical} now={now} zone={clinicZone} />
        <div className={css.head}>
          <Counts rows={clinical} />
          <search className={css.find}>
            <label htmlFor="find">Find</label>
            <input
              id="find"
              ref={find}
              type="search"
              autoComplete="off"
              placeholder="name or record number"
              value={wanted}
              onChange={(event) => setWanted(event.target.value)}
            />
          </search>
          <SumLine toCall={clinical.length} sum={data} />
        </div>
        <p role="status" className={says ? css.says : undefined}>
          {says}
        </p>
        {data.unreadable.length > 0 ? (
          <div className={css.trouble}>
            <p>
              <b>{data.unreadable.length} could not be read and may be missing below.</b> Tell whoever runs
              this system:
            </p>
            <ul>
              {data.unreadable.map(({ what, id, why }) => (
                <li key={`${what} ${id}`}>
                  {what} {id}: {why}
                </li>
              ))}
            </ul>
          </div>
        ) : null}
        {shown.length > 0 ? (
          <RowsTable rows={shown} caption="Clinical rows, the most pressing first" />
        ) : (
          <p className={css.empty}>
            {clinical.length > 0 ? 'No row has these words.' : 'Nobody to call now.'}
          </p>
        )}
        {hidden > 0 && shown.length > 0 ? <p className={css.sum}>{hidden} rows are hidden by Find.</p> : null}
        <FoundOthers wanted={wanted} onList={onList} now={now} zone={clinicZone} />
        <div className={css.foot}>
          {upkeep.length > 0 ? (
            <Upkeep all={upkeep} shown={shownUpkeep} forced={wanted !== '' && shownUpkeep.length > 0} />
          ) : (
            <span />
          )}
          <Hints on={keysOn} onTurn={turnKeys} />
        </div>
      </div>
      {open?.what === 'call' ? (
        <CallbackDialog
          patient={open.row}
          flags={open.row.flags}
          labels={Object.fromEntries(open.row.drains.map(({ id, label }) => [id, label]))}
          clinicZone={clinicZone}
          now={now}
          onClose={() => setOpen(null)}
          onRecorded={() => {
            setSays(`The call to ${open.row.name} is recorded.`)
            setOpen(null)
          }}
        />
      ) : null}
      {open?.what === 'overrule' ? (
        <OverruleDialog
          patientId={open.row.patientId}
          name={open.row.name}
          holder={open.row.hold?.name ?? 'Somebody'}
          hold={hold}
          onClose={() => setOpen(null)}
        />
      ) : null}
    </DeskProvider>
  )
}

function Upkeep({ all, shown, forced }: { all: WorklistRow[]; shown: WorklistRow[]; forced: boolean }) {
  const late = all.filter(({ overdue }) => overdue).length
  return (
    <details className={css.upkeep} open={forced || undefined}>
      <summary>
        <b>Upkeep</b> · {all.length} reminded, {late} past the reminder
        {countUpkeep(all).map(({ name, count }) => (
          <span key={name}>
            {' '}
            {name} {count}
          </span>
        ))}
      </summary>
      <RowsTable rows={shown} caption="Upkeep: what is due, reminded to the patient first" />
    </details>
  )
}
