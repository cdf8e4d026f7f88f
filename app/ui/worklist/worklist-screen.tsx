'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import { isRefusal } from '@/lib/client/ask.ts'
import { useServerNow } from '@/lib/client/server-time.ts'
import { useFirstFree } from '@/lib/client/use-first-free.ts'
import { useHold } from '@/lib/client/use-hold.ts'
import { useLive } from '@/lib/client/use-live.ts'
import { worklistQuery } from '@/lib/client/worklist-query.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { type ListHabit, type ListView, standardView } from '@/lib/domain/list-view.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import type { Urgency } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { arrange } from './arrange.ts'
import { Connection } from './connection.tsx'
import { Counts, SumLine } from './counts.tsx'
import { DayStrip } from './day-strip.tsx'
import { type Desk, DeskProvider } from './desk.tsx'
import { Hints } from './hints.tsx'
import { KeyHint, shortcut } from './key-hint.tsx'
import { FoundOthers, RecordedCallLine } from './later.tsx'
import { HiddenLine, NewLine } from './list-lines.tsx'
import { newsOf } from './news.ts'
import { type OpenDialog, RowDialogs } from './row-dialogs.tsx'
import { RowsTable, type TableHandle } from './rows-table.tsx'
import { Trouble } from './trouble.tsx'
import { UpkeepLine } from './upkeep-line.tsx'
import { useAtOnce } from './use-at-once.ts'
import { useKept } from './use-kept.ts'
import { useKeyChoice } from './use-key-choice.ts'
import { useReturn } from './use-return.ts'
import { useRowKeys } from './use-row-keys.ts'
import { useSettled } from './use-settled.ts'
import { useView } from './use-view.ts'
import { Arrangement, OnlyChoice } from './view-bar.tsx'
import css from './worklist.module.css'

type Props = {
  staff: StaffMember
  habit: ListHabit
  /** How many rows there were when the page was drawn: of a long list it brings only the first along. */
  begins: { asOf: Instant; total: number }
}

/** The worklist, live: whom to call first, why, and by when. The page brings the first answer along. */
export function WorklistScreen({ staff, habit, begins }: Props) {
  const { data, error, refetch } = useSuspenseQuery(worklistQuery)
  const live = useLive()
  const now = useServerNow(data.asOf)
  const router = useRouter()
  const hold = useHold()
  const first = useFirstFree()
  const [open, setOpen] = useState<OpenDialog>(null)
  const [wanted, setWanted] = useState('')
  const [upkeepOpen, setUpkeepOpen] = useState(false)
  const [says, setSays] = useState('')
  const [focusedId, setFocusedId] = useState<string | null>(null)
  const [pointedId, setPointedId] = useState<string | null>(null)
  const room = useRef<HTMLDivElement>(null)
  const find = useRef<HTMLInputElement>(null)
  const table = useRef<TableHandle>(null)
  const [keysOn, turnKeys] = useKeyChoice()
  const [sound, turnSound] = useKept('outflow.at-once-sound', false)
  const { view, change } = useView(habit, setSays)
  const isPart = data.asOf === begins.asOf && data.rows.length < begins.total
  const list = useSettled(data.rows, room, { busy: open !== null, isPart })
  const atOnceNames = useAtOnce(data.rows, sound)

  const seen = useRef(data.rows)
  useEffect(() => {
    const names = newsOf(seen.current, data.rows, staff.id)
    seen.current = data.rows
    if (names.length > 0) setSays(`New from ${names.join(' and ')}, whom you have taken: read the row again.`)
  }, [data.rows, staff.id])

  const { lines, rowIds, hidden } = useMemo(
    () => arrange(list.settled, { view, wanted, selfId: staff.id, upkeepOpen }),
    [list.settled, view, wanted, staff.id, upkeepOpen],
  )
  const clinical = useMemo(() => data.rows.filter(({ part }) => part === 'clinical'), [data.rows])
  const upkeep = useMemo(() => data.rows.filter(({ part }) => part === 'upkeep'), [data.rows])
  const onList = useMemo(() => new Set(list.live.keys()), [list.live])

  const { mutate } = hold
  /** Whose row is being taken or given back: that one waits for its answer, every other is free. */
  const busy = hold.isPending ? hold.variables.patientId : null
  const step = useCallback(
    (row: WorklistRow, wish: 'take' | 'release') => {
      if (busy === row.patientId) return
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
    [mutate, busy],
  )
  const takeFirst = () => {
    if (first.isPending) return
    setSays('')
    first.mutate(null, {
      onSuccess: ({ patientId }) => router.push(`/patients/${patientId}`),
      onError: (error) => setSays(error.message),
    })
  }
  /** Whoever asks for another view asks for the list as it is now. */
  const look = (part: Partial<ListView>) => {
    list.settle()
    change(part)
  }
  const chooseUrgency = (urgency: Urgency) =>
    look({
      urgencies: view.urgencies.includes(urgency)
        ? view.urgencies.filter((one) => one !== urgency)
        : [...view.urgencies, urgency],
    })
  const showAll = () => {
    setWanted('')
    look({ urgencies: standardView.urgencies, only: standardView.only })
  }

  const keys = useRowKeys({
    on: keysOn,
    staff,
    rooms: { room, find, table },
    rowIds,
    live: list.live,
    focusedId,
    does: {
      open: (id) => router.push(`/patients/${id}`),
      take: (row) => step(row, 'take'),
      giveBack: (row) => step(row, 'release'),
      call: (row) => setOpen({ what: 'call', row }),
      firstFree: takeFirst,
      showNew: list.settle,
      upkeep: () => setUpkeepOpen(!upkeepOpen),
      all: showAll,
      urgency: chooseUrgency,
    },
  })

  useReturn(rowIds, isPart, keys.focusRow)

  const { timeZone: clinicZone } = data.clinic
  const desk: Desk = {
    now,
    clinicZone,
    completeFrom: data.completeFrom,
    staff,
    keysOn,
    busy,
    take: (row) => step(row, 'take'),
    release: (row) => step(row, 'release'),
    overrule: (row) => setOpen({ what: 'overrule', row }),
    call: (row) => setOpen({ what: 'call', row }),
  }
  const isEmpty = rowIds.length === 0 && (view.only !== 'all' || view.urgencies.length > 0 || wanted !== '')

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
        <Trouble unreadable={data.unreadable} system={data.system} />
        <DayStrip
          rows={clinical}
          now={now}
          zone={clinicZone}
          current={pointedId ?? focusedId}
          onPoint={setPointedId}
          onGo={(id, enter) =>
            enter
              ? keys.focusRow(id)
              : table.current?.reveal(id, (line) => line.scrollIntoView({ block: 'nearest' }))
          }
        />
        <div className={css.head}>
          <Counts
            rows={clinical}
            chosen={view.urgencies}
            onChoose={chooseUrgency}
            onAll={() => look({ urgencies: [] })}
            keysOn={keysOn}
          />
          <search className={css.find}>
            <label htmlFor="find">
              Find <KeyHint action="find" on={keysOn} />
            </label>
            <input
              id="find"
              ref={find}
              type="search"
              autoComplete="off"
              placeholder="name, number, finding"
              value={wanted}
              onChange={(event) => {
                list.settle()
                setWanted(event.target.value)
              }}
            />
          </search>
          {may(staff.role, 'take-row') ? (
            <button
              type="button"
              data-main
              onClick={takeFirst}
              aria-disabled={first.isPending}
              {...shortcut('first-free', keysOn)}
            >
              First free row <KeyHint action="first-free" on={keysOn} />
            </button>
          ) : null}
        </div>
        <div className={css.second}>
          <OnlyChoice view={view} onChange={look} />
          <Arrangement view={view} onChange={look} />
          <SumLine toCall={clinical.length} sum={data} />
        </div>
        <p role="status" className={says ? css.says : undefined}>
          {says}
        </p>
        <RecordedCallLine />
        <p role="alert" className={atOnceNames.length > 0 ? css.says : undefined}>
          {atOnceNames.length > 0 ? `New at once: ${atOnceNames.slice(0, 6).join(', ')}` : ''}
        </p>
        {isPart ? (
          <p role="status" className={css.says}>
            The first {data.rows.length} of {begins.total} rows. The others are being read.
          </p>
        ) : null}
        <NewLine count={list.waiting.length} onShow={list.settle} keysOn={keysOn} />
        <HiddenLine hidden={hidden} onClear={showAll} />
        {lines.length === 0 || isEmpty ? (
          <p className={css.empty}>
            {wanted !== '' ? 'No row has these words.' : isEmpty ? 'No row is so.' : 'Nobody to call now.'}
          </p>
        ) : null}
        {lines.length > 0 ? (
          <RowsTable
            ref={table}
            lines={lines}
            live={list.live}
            chosen={view.columns}
            caption="Whom to call, the clinical rows first, upkeep below"
            focusedId={focusedId}
            pointedId={pointedId}
            onFocus={setFocusedId}
            onPoint={setPointedId}
            upkeep={(isOpen) => (
              <UpkeepLine rows={upkeep} open={isOpen} onTurn={() => setUpkeepOpen(!isOpen)} keysOn={keysOn} />
            )}
          />
        ) : null}
        {wanted.trim() === '' ? null : (
          <FoundOthers wanted={wanted} onList={onList} now={now} zone={clinicZone} />
        )}
        <div className={css.foot}>
          <Hints on={keysOn} onTurn={turnKeys} sound={sound} onSound={turnSound} />
        </div>
      </div>
      <RowDialogs
        open={open}
        clinicZone={clinicZone}
        now={now}
        hold={hold}
        onClose={() => setOpen(null)}
        onRecorded={(row) => {
          setSays('')
          list.letGo(row.patientId)
          setOpen(null)
        }}
      />
    </DeskProvider>
  )
}
