import { urgencyLabels } from '@/lib/domain/labels.ts'
import type { Worklist, WorklistRow } from '@/lib/domain/worklist.ts'
import { Marks } from '../parts/marks.tsx'
import { countByUrgency, URGENCIES } from './tally.ts'
import css from './worklist.module.css'

/** How many rows there are of each urgency. */
export function Counts({ rows }: { rows: readonly WorklistRow[] }) {
  const counts = countByUrgency(rows)
  return (
    <ul className={css.counts} aria-label="Rows by urgency">
      {URGENCIES.map((urgency) => (
        <li key={urgency}>
          <Marks urgency={urgency} /> {urgencyLabels[urgency]} <b>{counts[urgency]}</b>
        </li>
      ))}
    </ul>
  )
}

type Sum = Pick<Worklist, 'patients' | 'nothingFlagged' | 'notHeard'>

export function SumLine({
  toCall,
  sum: { patients, nothingFlagged, notHeard },
}: {
  toCall: number
  sum: Sum
}) {
  return (
    <p className={css.sum}>
      {toCall} to call of {patients} · {nothingFlagged} nothing flagged · {notHeard} not heard for two days
    </p>
  )
}
