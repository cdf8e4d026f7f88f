'use client'

import { usePathname, useSearchParams } from 'next/navigation'
import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import { ask } from '@/lib/client/ask.ts'
import { habitOf, ListHabit, type ListView, readView, same, writeView } from '@/lib/domain/list-view.ts'

/** How long nothing further is chosen until it is remembered. */
const PAUSE_MS = 400

/**
 * How the list is looked at, as the address states it: a link shows the same list, and Back goes to the view
 * before. Sort, group and columns are remembered on the server for the person; filters are not.
 */
export function useView(first: ListHabit, onTrouble: (text: string) => void) {
  const query = useSearchParams()
  const path = usePathname()
  const [habit, setHabit] = useState(first)
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const view = useMemo(() => readView(new URLSearchParams(query), habit), [query, habit])

  // What stands by habit is stated too, so that the address can be sent to somebody with other habits.
  useEffect(() => {
    if (window.location.search !== '') return
    const whole = writeView(view, habit)
    if (whole !== '') window.history.replaceState(null, '', path + whole)
  }, [view, habit, path])

  const change = useCallback(
    (part: Partial<ListView>) => {
      const next = { ...view, ...part }
      const wanted = habitOf(next)
      const kept = same(wanted, habitOf(view)) ? habit : wanted
      window.history.pushState(null, '', path + writeView(next, kept))
      if (kept === habit) return
      setHabit(kept)
      // The last choice is the one that is kept, also of several made quickly.
      clearTimeout(timer.current)
      timer.current = setTimeout(() => {
        ask('/api/preferences/worklist', ListHabit, { method: 'PUT', body: kept }).catch(() =>
          onTrouble('This arrangement holds for now, but could not be remembered.'),
        )
      }, PAUSE_MS)
    },
    [view, habit, path, onTrouble],
  )
  return { view, change }
}
