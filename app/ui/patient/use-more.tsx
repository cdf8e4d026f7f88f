import { type ReactNode, useState } from 'react'
import type { SheetTarget } from '@/lib/domain/call-sheet-line.ts'
import { useJump } from './call-sheet-jump.ts'

/** So many are shown of a long list before more are asked for. */
const STEP = 8

/**
 * The first of a long list, and the buttons that show more of it, or all. `what` names them to whoever hears the page.
 * `isWanted`: the entry that a number of the call sheet leads to, which is then shown.
 */
export function useMore<T>(
  all: readonly T[],
  what: string,
  isWanted?: (one: T, target: SheetTarget) => boolean,
): [shown: readonly T[], more: ReactNode] {
  const [most, setMost] = useState(STEP)
  useJump((target) => {
    const at = isWanted ? all.findIndex((one) => isWanted(one, target)) : -1
    if (at >= most) setMost(at + 1)
    return false
  })
  const left = all.length - most
  const more =
    left > 0 ? (
      <p>
        {left > STEP ? (
          <button type="button" data-quiet onClick={() => setMost(most + STEP)}>
            Show {STEP} more of {all.length}
            <span className="for-reader"> {what}</span>
          </button>
        ) : null}
        <button type="button" data-quiet onClick={() => setMost(Number.POSITIVE_INFINITY)}>
          Show all {all.length}
          <span className="for-reader"> {what}</span>
        </button>
      </p>
    ) : null
  return [all.slice(0, most), more]
}
