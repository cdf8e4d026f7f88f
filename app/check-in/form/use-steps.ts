import { useEffect, useRef } from 'react'

/** The screen of its own that urgent advice takes; the steps of the form name themselves. */
export const NOW = 'now'

type Mark = { checkInStep?: string }

/**
 * The screens as entries of the browser's history, so that 'back' goes one screen back and loses nothing.
 * `show` is told which screen the history has come to.
 */
export function useSteps(first: string, show: (step: string) => void) {
  const depth = useRef(0)
  const showRef = useRef(show)
  useEffect(() => {
    showRef.current = show
  })

  useEffect(() => {
    window.history.replaceState({ checkInStep: first } satisfies Mark, '')
    const back = (event: PopStateEvent) => {
      const step = (event.state as Mark | null)?.checkInStep
      if (!step) return
      depth.current = Math.max(0, depth.current - 1)
      showRef.current(step)
    }
    window.addEventListener('popstate', back)
    return () => window.removeEventListener('popstate', back)
  }, [first])

  return {
    goTo(step: string) {
      window.history.pushState({ checkInStep: step } satisfies Mark, '')
      depth.current += 1
      showRef.current(step)
    },
    /** One screen back; after a reload with no history of ours, to the screen that stands before this one. */
    goBack(before: string) {
      if (depth.current > 0) return window.history.back()
      window.history.replaceState({ checkInStep: before } satisfies Mark, '')
      showRef.current(before)
    },
  }
}
