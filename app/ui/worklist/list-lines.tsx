import type { Hidden } from './arrange.ts'
import { KeyHint, shortcut } from './key-hint.tsx'
import css from './worklist.module.css'

const MOST_NAMES = 6

/** What a filter keeps from sight, said whenever it keeps something. */
export function HiddenLine({ hidden, onClear }: { hidden: Hidden; onClear: () => void }) {
  const { count, by, atOnce } = hidden
  return (
    <div role="status">
      {count > 0 ? (
        <p className={css.hidden}>
          <span>
            {count === 1 ? '1 row is' : `${count} rows are`} hidden by {by.join(' and ')}.
            {atOnce.length > 0 ? (
              <b>
                {' '}
                At once among them: {atOnce.slice(0, MOST_NAMES).join(', ')}
                {atOnce.length > MOST_NAMES ? ` and ${atOnce.length - MOST_NAMES} more` : ''}.
              </b>
            ) : null}
          </span>
          <button type="button" onClick={onClear}>
            Show all rows
          </button>
        </p>
      ) : null}
    </div>
  )
}

/** Rows that have come since the list was put in order: they wait here, so that nothing moves under the eye. */
export function NewLine({ count, onShow, keysOn }: { count: number; onShow: () => void; keysOn: boolean }) {
  return (
    <div role="status">
      {count > 0 ? (
        <button type="button" className={css.news} onClick={onShow} {...shortcut('show-new', keysOn)}>
          {count} new or more urgent <KeyHint action="show-new" on={keysOn} />
        </button>
      ) : null}
    </div>
  )
}
