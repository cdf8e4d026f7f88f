'use client'

import { useEffect, useRef, useState } from 'react'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { chime } from './chime.ts'
import { newAtOnce } from './settle.ts'

const TITLE = 'Worklist · Outflow Round'

/** The browser's title: how many rows are at once, and whether one is new. No name: a title is seen by many. */
export const titleOf = (atOnce: number, isNew: boolean): string =>
  atOnce === 0 ? TITLE : `${isNew ? 'New at once ' : ''}(${atOnce}) ${TITLE}`

/**
 * Tells of a new at-once row in the browser's title, by a sound where one is wanted, and by name to the screen.
 * The title goes back to the count alone once somebody touches the page.
 */
export function useAtOnce(rows: readonly WorklistRow[], sound: boolean): string[] {
  const seen = useRef(rows)
  const [names, setNames] = useState<string[]>([])
  const wanted = useRef(sound)
  wanted.current = sound

  useEffect(() => {
    const fresh = newAtOnce(seen.current, rows)
    seen.current = rows
    if (fresh.length === 0) return
    setNames(fresh)
    if (wanted.current) void chime()
  }, [rows])

  const count = rows.filter(({ urgency }) => urgency === 'at-once').length
  useEffect(() => {
    document.title = titleOf(count, names.length > 0)
  }, [count, names])

  useEffect(() => {
    if (names.length === 0) return
    const seenIt = () => setNames([])
    // After the press, not at its beginning: the line that goes would move the button from under the pointer.
    document.addEventListener('click', seenIt, { once: true })
    document.addEventListener('keyup', seenIt, { once: true })
    return () => {
      document.removeEventListener('click', seenIt)
      document.removeEventListener('keyup', seenIt)
    }
  }, [names])
  return names
}
