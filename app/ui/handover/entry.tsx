import Link from 'next/link'
import type { HandoverEntry, HandoverSheet } from '@/lib/domain/handover.ts'
import {
  agreedText,
  answersFor,
  byWhen,
  dueText,
  findingTexts,
  identifiers,
  readOf,
  tryText,
} from '@/lib/domain/handover-lines.ts'
import { shortTimes } from '@/lib/domain/local-time.ts'
import { Marks } from '../parts/marks.tsx'
import css from './handover.module.css'

/** What accepts a row by name. */
export type Accept = { isBusy: boolean; press: (entry: HandoverEntry) => void }
type Props = { entry: HandoverEntry; sheet: HandoverSheet; accept: Accept | null }

/** One row as it is handed over. */
export function Entry({ entry, sheet, accept }: Props) {
  const read = readOf(sheet)
  const { label, by } = byWhen(entry, read)
  const answers = answersFor(entry, sheet.handover, read)
  const isSameZone = entry.timeZone === read.zone
  return (
    <tr>
      <td>
        <p className={css.urgency}>
          <Marks urgency={entry.urgency} />
          <b>{label}</b>
        </p>
        <p className={entry.overdue ? css.over : css.small}>{by}</p>
        {entry.isNew ? <p className={css.new}>New since it was opened</p> : null}
      </td>
      <th scope="row">
        <Link href={`/patients/${entry.patientId}`} prefetch={false} className={css.name}>
          {entry.name}
        </Link>
        <p className={css.small}>
          {identifiers(entry)
            .split(' · ')
            .map((one, i) => (
              <span key={one}>
                {i > 0 ? ' · ' : ''}
                <span className={css.id}>{one}</span>
              </span>
            ))}
        </p>
        <p className={css.small}>{entry.drains.join(', ')}</p>
      </th>
      <td>
        {findingTexts(entry).map((text) => (
          <p key={text}>{isSameZone ? shortTimes(text, Date.parse(read.asOf), read.zone) : text}</p>
        ))}
      </td>
      <td>
        {entry.tried.length === 0 ? <p>Not tried.</p> : null}
        {entry.tried.map((one) => (
          <p key={one.at}>{tryText(one, read)}</p>
        ))}
        {entry.agreed ? (
          <p>
            <b>Agreed</b> {agreedText(entry.agreed, read)}
          </p>
        ) : null}
      </td>
      <td>
        {entry.due.map((due) => (
          <p key={`${due.what} ${due.at}`}>{dueText(due, read)}</p>
        ))}
      </td>
      <td>
        {entry.holder ? <p>Taken by {entry.holder}</p> : null}
        {answers ? <p className={entry.accepted ? undefined : css.staying}>{answers}</p> : null}
        {accept && entry.needs && entry.accepted === null ? (
          <button
            type="button"
            data-accept
            data-main
            aria-disabled={accept.isBusy}
            onClick={() => accept.press(entry)}
          >
            Accept<span className="for-reader"> {entry.name}</span>
          </button>
        ) : null}
      </td>
    </tr>
  )
}
