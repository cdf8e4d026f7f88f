import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { KeyHint, shortcut } from './key-hint.tsx'
import { countUpkeep } from './tally.ts'
import css from './worklist.module.css'

type Props = { rows: readonly WorklistRow[]; open: boolean; onTurn: () => void; keysOn: boolean }

/** What is due, which the patient is reminded of first: how much of it, and the way to its rows. */
export function UpkeepLine({ rows, open, onTurn, keysOn }: Props) {
  const late = rows.filter(({ overdue }) => overdue).length
  return (
    <button
      type="button"
      className={css.upkeep}
      aria-expanded={open}
      onClick={onTurn}
      {...shortcut('upkeep', keysOn)}
    >
      <span aria-hidden="true">{open ? '▾' : '▸'}</span> <b>Upkeep</b> · {rows.length} reminded, {late} past
      the reminder
      {countUpkeep(rows).map(({ name, count }) => (
        <span key={name} className={css.due}>
          {' '}
          {name} {count}
        </span>
      ))}{' '}
      <KeyHint action="upkeep" on={keysOn} />
    </button>
  )
}
