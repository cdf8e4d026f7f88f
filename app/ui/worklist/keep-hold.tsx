'use client'

import { useEffect, useRef, useState } from 'react'
import { browserNow } from '@/lib/client/browser-clock.ts'
import type { useHold } from '@/lib/client/use-hold.ts'
import type { Hold } from '@/lib/domain/worklist.ts'
import { isToRenew } from './renewal.ts'
import css from './worklist.module.css'

type Props = {
  patientId: string
  hold: Hold | null
  selfId: string
  now: number
  renew: ReturnType<typeof useHold>
}

const TOUCHES = ['pointerdown', 'pointermove', 'keydown', 'wheel', 'touchstart'] as const

/**
 * Keeps one's own row while the patient's page is open and somebody works at it, and says so when the row is no
 * longer one's own: before the call, not after it.
 */
export function KeepHold({ patientId, hold, selfId, now, renew }: Props) {
  const touchedMs = useRef(0)
  const [lost, setLost] = useState('')
  const isOwn = hold?.staffId === selfId
  const wasOwn = useRef(isOwn)

  useEffect(() => {
    const touch = () => {
      touchedMs.current = browserNow().getTime()
    }
    touch()
    for (const name of TOUCHES) document.addEventListener(name, touch, { passive: true })
    return () => {
      for (const name of TOUCHES) document.removeEventListener(name, touch)
    }
  }, [])

  const { mutate, isPending } = renew
  const until = isOwn ? hold.until : null
  useEffect(() => {
    if (until === null || isPending) return
    const untouchedMs = browserNow().getTime() - touchedMs.current
    if (isToRenew(Date.parse(until) - now, untouchedMs)) mutate({ patientId, step: 'renew' })
  }, [until, now, isPending, mutate, patientId])

  useEffect(() => {
    if (wasOwn.current && hold !== null && !isOwn) setLost(`${hold.name} has taken this row over from you.`)
    if (isOwn) setLost('')
    wasOwn.current = isOwn
  }, [hold, isOwn])

  return (
    <p role="alert" className={lost ? css.says : undefined}>
      {lost}
    </p>
  )
}
