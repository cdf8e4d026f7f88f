import type { ReactNode } from 'react'
import keys from '../parts/key.module.css'
import { chime } from './chime.ts'
import css from './worklist.module.css'

type Props = { on: boolean; onTurn: () => void; sound: boolean; onSound: () => void }

const Key = ({ children }: { children: ReactNode }) => <kbd className={keys.key}>{children}</kbd>

/** What the keys do on a row, in sight; the others stand on the controls that they work. */
export function Hints({ on, onTurn, sound, onSound }: Props) {
  return (
    <p className={css.keys}>
      {on ? (
        <>
          <Key>↑</Key> <Key>↓</Key> or <Key>W</Key> <Key>S</Key> move · <Key>Enter</Key> or <Key>D</Key> open
          · <Key>Space</Key> take · <Key>Z</Key> give back · <Key>C</Key> record call · <Key>A</Key> next at
          once
        </>
      ) : null}
      <button type="button" data-quiet onClick={onTurn}>
        {on ? 'Turn keys off' : 'Turn keys on'}
      </button>
      <span>
        <label>
          <input type="checkbox" checked={sound} onChange={onSound} /> Sound for a new at-once row
        </label>
        <button type="button" data-quiet onClick={() => void chime()}>
          Test sound
        </button>
      </span>
    </p>
  )
}
