import { urgencyLabels } from '@/lib/domain/labels.ts'
import type { Urgency } from '@/lib/domain/words.ts'
import type { Worklist, WorklistRow } from '@/lib/domain/worklist.ts'
import { Marks } from '../parts/marks.tsx'
import { KeyHint, shortcut } from './key-hint.tsx'
import { countByUrgency, URGENCIES } from './tally.ts'
import css from './worklist.module.css'

type Props = {
  rows: readonly WorklistRow[]
  chosen: readonly Urgency[]
  onChoose: (urgency: Urgency) => void
  onAll: () => void
  keysOn: boolean
}

/** How many rows there are of each urgency; each count shows its rows alone, several show theirs together. */
export function Counts({ rows, chosen, onChoose, onAll, keysOn }: Props) {
  const counts = countByUrgency(rows)
  return (
    <fieldset className={css.counts}>
      <legend className="for-reader">Rows by urgency</legend>
      <button type="button" aria-pressed={chosen.length === 0} onClick={onAll} {...shortcut('all', keysOn)}>
        All <b>{rows.length}</b> <KeyHint action="all" on={keysOn} />
      </button>
      {URGENCIES.map((urgency) => (
        <button
          key={urgency}
          type="button"
          aria-pressed={chosen.includes(urgency)}
          onClick={() => onChoose(urgency)}
          {...shortcut(urgency, keysOn)}
        >
          <Marks urgency={urgency} /> {urgencyLabels[urgency]} <b>{counts[urgency]}</b>{' '}
          <KeyHint action={urgency} on={keysOn} />
        </button>
      ))}
    </fieldset>
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
