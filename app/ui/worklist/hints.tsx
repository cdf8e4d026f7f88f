import css from './worklist.module.css'

/** What the keys do, in sight. */
export function Hints({ on, onTurn }: { on: boolean; onTurn: () => void }) {
  return (
    <p className={css.keys}>
      {on ? (
        <>
          <kbd>↑</kbd> <kbd>↓</kbd> move · <kbd>Space</kbd> take · <kbd>Enter</kbd> open · <kbd>F</kbd> or{' '}
          <kbd>/</kbd> find
        </>
      ) : null}
      <button type="button" data-quiet onClick={onTurn}>
        {on ? 'Turn keys off' : 'Turn keys on'}
      </button>
    </p>
  )
}
