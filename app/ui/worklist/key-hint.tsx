import { Key } from '../parts/key.tsx'
import { type KeyAction, keyOf } from './keymap.ts'

/** The key of what can be done on the list, on its control. */
export const KeyHint = ({ action, on }: { action: KeyAction; on: boolean }) => (
  <Key on={on}>{keyOf(action)}</Key>
)

/** What a control with a key carries. */
export const shortcut = (action: KeyAction, on: boolean) => (on ? { 'aria-keyshortcuts': keyOf(action) } : {})
