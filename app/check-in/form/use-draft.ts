import { useCallback, useEffect, useState } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Draft } from '../answers/draft.ts'
import type { Visit } from '../visit/use-visit.ts'

/** The answers so far: each change is kept on the phone at once, and another tab's changes are taken up. */
export function useDraft(view: CheckInView, start: Draft, { clock, saveDraft, catchUp }: Visit) {
  const [draft, setDraft] = useState(start)

  const change = useCallback(
    (to: (draft: Draft) => Draft) =>
      setDraft((from) => ({ ...to(from), savedAt: clock.now().toISOString() })),
    [clock],
  )

  useEffect(() => void saveDraft(draft), [draft, saveDraft])

  useEffect(() => {
    const seen = () => {
      if (document.visibilityState === 'visible') void catchUp(view, draft)
    }
    document.addEventListener('visibilitychange', seen)
    return () => document.removeEventListener('visibilitychange', seen)
  }, [catchUp, draft, view])

  return [draft, change] as const
}
