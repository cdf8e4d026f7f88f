'use client'

import { useEffect, useState } from 'react'
import { browserNow } from '@/lib/client/browser-clock.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { leftText } from './row-text.ts'

/** How long a row is still theirs, counting down between the ticks of the list itself. */
export function TimeLeft({ until, now }: { until: Instant; now: number }) {
  const [passed, setPassed] = useState(0)
  useEffect(() => {
    const from = browserNow().getTime()
    setPassed(0)
    const timer = setInterval(() => setPassed(browserNow().getTime() - from), 1_000)
    return () => clearInterval(timer)
  }, [now])
  return <span>{leftText(Date.parse(until) - now - passed)}</span>
}
