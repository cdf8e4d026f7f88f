import { useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { exchangeLink, leave, readView, renewLink, sendReport } from '../keep/doors.ts'
import { unsent } from './line.ts'
import { personalLink } from './link.ts'
import { newKey } from './new-key.ts'
import { phoneClock } from './phone-clock.ts'
import { untilLoaded } from './until-loaded.ts'
import { usePoll } from './use-poll.ts'
import { useRetry } from './use-retry.ts'
import { makeVisit } from './visit.ts'

/** The visit of this page, and what is on its screen. */
export function useVisit() {
  const [{ visit, clock }] = useState(() => {
    const clock = phoneClock()
    const visit = makeVisit({
      // Loaded here, since the server that renders the page has no such database.
      openKeep: async () => {
        const keep = await (await untilLoaded(() => import('../keep/browser-keep.ts'))).browserKeep()
        if (keep.lasting) askToStay()
        return keep
      },
      link: personalLink(exchangeLink, renewLink),
      readView,
      send: sendReport,
      leave,
      wipe: async () => (await untilLoaded(() => import('./wipe.ts'))).wipe(),
      clock,
      newKey,
    })
    return { visit, clock }
  })
  const state = useSyncExternalStore(visit.subscribe, visit.state, visit.state)
  const { phase, waits, stale, view } = state
  const { open, tryAgain, refresh } = visit.actions

  const opened = useRef(false)
  useEffect(() => {
    if (!opened.current) void open()
    opened.current = true
    // The link tapped again in the same tab changes the fragment only.
    const again = () => {
      if (window.location.hash.length > 1) void open()
    }
    window.addEventListener('hashchange', again)
    return () => window.removeEventListener('hashchange', again)
  }, [open])

  const isOver = phase.name === 'waiting' && phase.why === 'link-ended'
  useRetry((phase.name === 'unreachable' || stale || unsent(waits).length > 0) && !isOver, tryAgain)
  usePoll(view !== null && !stale, refresh)

  return { ...state, ...visit.actions, clock }
}
/** A browser that is short of room may clear what it holds; it is asked not to clear this. */
function askToStay(): void {
  void navigator.storage?.persist?.().catch(() => undefined)
}

export type Visit = ReturnType<typeof useVisit>
