import { useEffect } from 'react'

/** Waits between tries, in seconds: soon at first, then sparing an old battery. */
const WAITS_S = [3, 6, 12, 30, 60]

/** While `waits`, tries again after a while, when the network is back, and when the page is looked at again. */
export function useRetry(waits: boolean, tryAgain: () => void): void {
  useEffect(() => {
    if (!waits) return
    let tries = 0
    let timer: ReturnType<typeof setTimeout>
    const later = () => {
      timer = setTimeout(
        () => {
          tries += 1
          tryAgain()
          later()
        },
        (WAITS_S[Math.min(tries, WAITS_S.length - 1)] ?? 60) * 1000,
      )
    }
    const seen = () => {
      if (document.visibilityState === 'visible') tryAgain()
    }
    later()
    window.addEventListener('online', tryAgain)
    document.addEventListener('visibilitychange', seen)
    return () => {
      clearTimeout(timer)
      window.removeEventListener('online', tryAgain)
      document.removeEventListener('visibilitychange', seen)
    }
  }, [waits, tryAgain])
}
