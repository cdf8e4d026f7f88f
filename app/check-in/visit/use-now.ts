import { useEffect, useState } from 'react'
import type { PhoneClock } from './phone-clock.ts'

const EVERY_MS = 30_000

/** The time, going on. The first drawing shows the instant at which the server drew the page. */
export function useNow(at: string, clock: PhoneClock): Date {
  const [now, setNow] = useState(() => new Date(at))
  useEffect(() => {
    const tick = () => setNow(clock.now())
    tick()
    const timer = setInterval(tick, EVERY_MS)
    return () => clearInterval(timer)
  }, [clock])
  return now
}
