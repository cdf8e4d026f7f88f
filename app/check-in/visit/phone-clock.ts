import { browserNow } from '@/lib/client/browser-clock.ts'

/** Clocks of two machines that agree to within this are left alone. */
const AGREES_MS = 2 * 60_000

/**
 * The time for this report: the phone's clock, set right by the server's where it is off, so that a phone
 * with a wrong date does not date its readings into another day.
 */
export function phoneClock() {
  let offMs = 0
  return {
    now: (): Date => new Date(browserNow().getTime() + offMs),
    setBy(serverTime: string): void {
      const off = Date.parse(serverTime) - browserNow().getTime()
      offMs = Math.abs(off) > AGREES_MS ? off : 0
    },
  }
}
export type PhoneClock = ReturnType<typeof phoneClock>
