'use client'

import { type RefObject, useCallback, useEffect, useMemo, useRef, useState } from 'react'
import { browserNow } from '@/lib/client/browser-clock.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { absorb, waitingOf } from './settle.ts'

/** After this long without a touch of pointer, wheel or key nobody is reading: the list puts itself in order. */
const QUIET_MS = 20_000
const LOOK_MS = 2_000
const TOUCHES = ['pointermove', 'pointerdown', 'wheel', 'keydown', 'focusin', 'touchmove'] as const

/**
 * The worklist so that nothing jumps while it is read: the order as it was settled, by whoever asked for it or
 * when nothing had been touched for a while. `busy`: a form is open over it, however quiet it is;
 * `isPart`: more of the list is on its way, and is no news.
 */
export function useSettled(
  fresh: readonly WorklistRow[],
  room: RefObject<HTMLElement | null>,
  { busy, isPart }: { busy: boolean; isPart: boolean },
) {
  const [settled, setSettled] = useState(fresh)
  const latest = useRef(fresh)
  const touchedMs = useRef(0)
  const leaving = useRef(new Set<string>())
  const isBusy = useRef(busy)
  isBusy.current = busy
  const wasPart = useRef(isPart)

  useEffect(() => {
    latest.current = fresh
    const isWhole = wasPart.current && !isPart
    wasPart.current = isPart
    const isQuiet = isWhole || (browserNow().getTime() - touchedMs.current >= QUIET_MS && !isBusy.current)
    if (isQuiet) {
      leaving.current.clear()
      setSettled(fresh)
      return
    }
    const there = new Set(fresh.map(({ patientId }) => patientId))
    setSettled((was) => {
      const rows = absorb(was, fresh)
      const stays = ({ patientId }: WorklistRow) => there.has(patientId) || !leaving.current.has(patientId)
      return rows.every(stays) ? rows : rows.filter(stays)
    })
  }, [fresh, isPart])

  useEffect(() => {
    const place = room.current
    const touch = () => {
      touchedMs.current = browserNow().getTime()
    }
    for (const name of TOUCHES) place?.addEventListener(name, touch, { passive: true })
    const timer = setInterval(() => {
      if (!isBusy.current && browserNow().getTime() - touchedMs.current >= QUIET_MS)
        setSettled(latest.current)
    }, LOOK_MS)
    return () => {
      clearInterval(timer)
      for (const name of TOUCHES) place?.removeEventListener(name, touch)
    }
  }, [room])

  const settle = useCallback(() => setSettled(latest.current), [])
  /** Somebody's own row may leave its place as soon as it has left the list. */
  const letGo = useCallback((patientId: string) => leaving.current.add(patientId), [])
  const live = useMemo(() => new Map(fresh.map((row) => [row.patientId, row])), [fresh])
  const waiting = useMemo(() => waitingOf(settled, fresh), [settled, fresh])
  return { settled, live, waiting, settle, letGo }
}
