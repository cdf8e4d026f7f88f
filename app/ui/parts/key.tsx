import type { ReactNode } from 'react'
import css from './key.module.css'

/** The key of a control, on the control; `aria-keyshortcuts` says it to whoever does not see it. */
export function Key({ on, children }: { on: boolean; children: ReactNode }) {
  return on ? (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a picture of a key takes no focus
    <kbd className={css.key} aria-hidden="true">
      {children}
    </kbd>
  ) : null
}
