'use client'

import Link from 'next/link'
import { fullDate } from '@/lib/domain/local-time.ts'
import { may } from '@/lib/domain/staff.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { Marks } from '../parts/marks.tsx'
import css from './cells.module.css'
import { useDesk } from './desk.tsx'
import { KeyHint } from './key-hint.tsx'
import {
  actByText,
  admissionText,
  drainText,
  flagText,
  flutterText,
  heardText,
  holdText,
  lateText,
  onCallText,
} from './row-text.ts'
import { Spark } from './spark.tsx'
import { TimeLeft } from './time-left.tsx'

export function ActByCell({ row }: { row: WorklistRow }) {
  const { now, clinicZone } = useDesk()
  const { time, isNow, isOver, label, away, theirs } = actByText(row, now, clinicZone)
  return (
    <>
      <p className={isNow || isOver ? `${css.time} ${css.over}` : css.time}>
        <Marks urgency={row.urgency} large />
        <b>{time}</b>
      </p>
      <p className={css.small}>
        {label}
        {away ? ` · ${away}` : ''}
      </p>
      {theirs ? <p className={css.small}>{theirs}</p> : null}
    </>
  )
}

export function PatientCell({ row }: { row: WorklistRow }) {
  return (
    <>
      <Link href={`/patients/${row.patientId}`} className={css.name} data-row-link prefetch={false}>
        {row.name}
      </Link>
      <p className={css.small}>
        {fullDate(row.birthDate)} · {row.recordNumber}
      </p>
      {row.nameAlert ? <p className={css.alert}>Name alert: another row is alike</p> : null}
    </>
  )
}

export function DrainCell({ row }: { row: WorklistRow }) {
  const { now } = useDesk()
  return row.drains.map((drain) => {
    const { name, about } = drainText(drain, now, row.timeZone)
    return (
      <div key={drain.id} className={css.drain}>
        <p>{name}</p>
        <p className={css.small}>{about}</p>
      </div>
    )
  })
}

export function FindingsCell({ row }: { row: WorklistRow }) {
  const { now, clinicZone } = useDesk()
  const { lines, others, due } = flagText(row, now, clinicZone)
  const late = lateText(row)
  const stay = admissionText(row.admission, now, clinicZone)
  return (
    <>
      {stay ? <p className={css.owed}>{stay}</p> : null}
      {late ? <p className={css.alert}>{late}</p> : null}
      {lines.map(({ id, drain, lead, rest, owed }) => (
        <p key={id}>
          {drain ? `${drain}: ` : ''}
          <b>{lead}</b>
          {rest}
          {owed ? <span className={css.owed}> Over by now, but nobody has spoken to them.</span> : null}
        </p>
      ))}
      {others.length > 0 ? <p className={css.small}>Also: {others.join(', ')}</p> : null}
      {flutterText(row) ? <p className={css.small}>{flutterText(row)}</p> : null}
      {row.flags.length === 0 && late === null ? (
        <p>{stay ? 'Nothing is flagged.' : 'A call was promised; nothing is flagged.'}</p>
      ) : null}
      {due.length > 0 ? <p className={css.small}>Also due: {due.join(', ')}</p> : null}
      {row.onCall ? <p className={css.owed}>{onCallText(row.onCall, now, clinicZone)}</p> : null}
    </>
  )
}

export function OutputCell({ row }: { row: WorklistRow }) {
  const { completeFrom } = useDesk()
  return row.drains.map((drain) => (
    <div key={drain.id} className={css.drain}>
      <Spark drain={drain} completeFrom={completeFrom} />
    </div>
  ))
}

export function HeardCell({ row }: { row: WorklistRow }) {
  const { now, clinicZone } = useDesk()
  const { time, from } = heardText(row.lastHeardAt, row.lastHeardFrom, now, clinicZone)
  return (
    <>
      <p>{time}</p>
      <p className={css.small}>{from}</p>
    </>
  )
}

export function WithCell({ row }: { row: WorklistRow }) {
  const { now, staff, busy, keysOn, take, release, overrule, call } = useDesk()
  const hold = holdText(row.hold, now, staff.id)
  const tries = row.attempts > 0 ? `${row.attempts} ${row.attempts === 1 ? 'try' : 'tries'}, not reached` : ''
  const isBusy = busy === row.patientId
  const owed = row.flags.some(({ state }) => state === 'owed')
  return (
    <>
      {hold && row.hold ? (
        <p className={css.owed}>
          <b aria-hidden="true">{hold.initials}</b> {hold.who} · <TimeLeft until={row.hold.until} now={now} />
        </p>
      ) : null}
      {!hold && owed ? <p className={css.owed}>owed a call</p> : null}
      {tries ? <p className={css.small}>{tries}</p> : null}
      {row.nextTry ? <p className={css.small}>{row.nextTry.says}</p> : null}
      <div className={css.steps}>
        {hold === null && may(staff.role, 'take-row') ? (
          <button type="button" onClick={() => take(row)} aria-disabled={isBusy}>
            Take<span className="for-reader"> {row.name}</span> <KeyHint action="take" on={keysOn} />
          </button>
        ) : null}
        {hold?.isOwn ? (
          <>
            <button type="button" data-main onClick={() => call(row)}>
              Record call<span className="for-reader"> to {row.name}</span>{' '}
              <KeyHint action="call" on={keysOn} />
            </button>
            <button type="button" data-quiet onClick={() => release(row)} aria-disabled={isBusy}>
              Give back<span className="for-reader"> {row.name}</span>{' '}
              <KeyHint action="give-back" on={keysOn} />
            </button>
          </>
        ) : null}
        {hold && !hold.isOwn && may(staff.role, 'override-take') ? (
          <button type="button" data-quiet onClick={() => overrule(row)}>
            Take over<span className="for-reader"> {row.name}</span>
          </button>
        ) : null}
      </div>
    </>
  )
}
