import { type KeyAction, keyOf } from './keymap.ts'
import css from './worklist.module.css'

/** The key of a control, on the control; `aria-keyshortcuts` says it to whoever does not see it. */
export function KeyHint({ action, on }: { action: KeyAction; on: boolean }) {
  return on ? (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a picture of a key takes no focus
    <kbd className={css.key} aria-hidden="true">
      {keyOf(action)}
    </kbd>
  ) : null
}

/** What a control with a key carries. */
export const shortcut = (action: KeyAction, on: boolean) => (on ? { 'aria-keyshortcuts': keyOf(action) } : {})
