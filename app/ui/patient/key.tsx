import css from './patient.module.css'

/** The key of a control, on the control; `aria-keyshortcuts` says it to whoever does not see it. */
export function Key({ letter, on }: { letter: string; on: boolean }) {
  return on ? (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a picture of a key takes no focus
    <kbd className={css.key} aria-hidden="true">
      {letter}
    </kbd>
  ) : null
}

/** What a control with a key carries. */
export const keyed = (letter: string, on: boolean) => (on ? { 'aria-keyshortcuts': letter } : {})
