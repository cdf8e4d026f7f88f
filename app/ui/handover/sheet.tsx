import type { HandoverEntry, HandoverSheet } from '@/lib/domain/handover.ts'
import { dueText, identifiers, readOf, spanText, untilText } from '@/lib/domain/handover-lines.ts'
import { Scroll } from '../parts/scroll.tsx'
import { type Accept, Entry } from './entry.tsx'
import css from './handover.module.css'

type Props = { sheet: HandoverSheet; accept: Accept | null }

/** What is handed over: the rows that need a name, the other rows, what is merely due, and what comes up. */
export function Sheet({ sheet, accept }: Props) {
  const { entries, coming, unreadable } = sheet
  const groups: { title: string; rows: HandoverEntry[]; none: string }[] = [
    {
      title: 'At once and within 1 hour',
      rows: entries.filter(({ needs }) => needs),
      none: 'Nothing is at once or within 1 hour.',
    },
    {
      title: 'Other rows',
      rows: entries.filter(({ needs, part }) => !needs && part === 'clinical'),
      none: 'No other row.',
    },
    { title: 'Upkeep', rows: entries.filter(({ needs, part }) => !needs && part === 'upkeep'), none: '' },
  ]
  return (
    <>
      <p className={css.span}>{spanText(sheet)}</p>
      {unreadable.length > 0 ? (
        <div className={css.trouble}>
          <p>
            <b>{unreadable.length} could not be read and may be missing below.</b>
          </p>
          <ul>
            {unreadable.map(({ what, id, why }) => (
              <li key={`${what} ${id}`}>
                {what} {id}: {why}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      {groups.map(({ title, rows, none }) =>
        rows.length > 0 ? (
          <Rows key={title} title={title} rows={rows} sheet={sheet} accept={accept} />
        ) : none ? (
          <p key={title}>{none}</p>
        ) : null,
      )}
      {coming.length > 0 ? (
        <section aria-labelledby="coming" className={css.part}>
          <h2 id="coming">
            Not on the list now, due by {untilText(sheet)} · {coming.length}
          </h2>
          <ul className={css.coming}>
            {coming.map((one) => (
              <li key={one.patientId}>
                <b>{one.name}</b> <span className={css.small}>{identifiers(one)}</span>:{' '}
                {one.due.map((due) => dueText(due, readOf(sheet))).join('; ')}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </>
  )
}

/** From one Accept to the next by the arrows, so that a hand stays on the keyboard. */
function onArrow(event: React.KeyboardEvent<HTMLElement>) {
  if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return
  if (!(event.target instanceof HTMLButtonElement)) return
  const all = [...event.currentTarget.querySelectorAll<HTMLButtonElement>('button[data-accept]')]
  const next = all[all.indexOf(event.target) + (event.key === 'ArrowDown' ? 1 : -1)]
  if (!next) return
  event.preventDefault()
  next.focus()
}

type RowsProps = { title: string; rows: HandoverEntry[]; sheet: HandoverSheet; accept: Accept | null }

function Rows({ title, rows, sheet, accept }: RowsProps) {
  const id = title.toLowerCase().replaceAll(' ', '-')
  return (
    <section aria-labelledby={id} className={css.part}>
      <h2 id={id}>
        {title} · {rows.length}
      </h2>
      <Scroll label={`${title}, as a table`}>
        <table className={css.table} onKeyDown={onArrow}>
          <thead>
            <tr>
              <th scope="col">Act by</th>
              <th scope="col">Patient</th>
              <th scope="col">What stands</th>
              <th scope="col">Tried, and agreed</th>
              <th scope="col">Falls due</th>
              <th scope="col">With</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((entry) => (
              <Entry key={entry.patientId} entry={entry} sheet={sheet} accept={accept} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}
