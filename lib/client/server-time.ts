import { useEffect, useState } from 'react'
import type { Instant } from '../domain/instant.ts'
import { browserNow } from './browser-clock.ts'

/**
 * The server's time, going on from the answer that is on screen: a ward computer whose clock is wrong still
 * shows the right minutes. The first drawing shows the instant of the answer itself, as the server drew it.
 */
export function useServerNow(asOf: Instant, everyMs = 10_000): number {
  const start = Date.parse(asOf)
  const [state, setState] = useState({ asOf, now: start })
  useEffect(() => {
    const received = browserNow().getTime()
    const tick = () => setState({ asOf, now: start + Math.max(0, browserNow().getTime() - received) })
    tick()
    const timer = setInterval(tick, everyMs)
    return () => clearInterval(timer)
  }, [asOf, start, everyMs])
  return state.asOf === asOf ? state.now : start
}
