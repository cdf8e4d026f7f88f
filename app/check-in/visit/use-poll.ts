import { useEffect } from 'react'

const EVERY_MS = 60_000

/** While the page is looked at: once a minute, and when it is looked at again. */
export function usePoll(on: boolean, work: () => void): void {
  useEffect(() => {
    if (!on) return
    const seen = () => {
      if (document.visibilityState === 'visible') work()
    }
    const timer = setInterval(seen, EVERY_MS)
    document.addEventListener('visibilitychange', seen)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', seen)
    }
  }, [on, work])
}
