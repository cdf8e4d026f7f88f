import { useEffect, useRef } from 'react'
import type { Draft } from '../answers/draft.ts'
import { urgentBy } from '../answers/urgent.ts'
import { useForm } from '../form/form-context.ts'
import { useSay } from '../words/say.tsx'
import { AdviceList } from './advice-list.tsx'

/** Urgent advice that the answer above brings, at once and from the page itself. `without` takes the answer away. */
export function AdviceHere({ without }: { without: (draft: Draft) => Draft }) {
  const say = useSay()
  const { draft, view, now } = useForm()
  const here = { view, language: say.language, now: now().toISOString() }
  const advice = urgentBy(draft, without(draft), here)
  const words = advice.map(({ text }) => text).join()

  // It comes into sight when it comes up, not when a screen that already has it is opened again.
  const box = useRef<HTMLDivElement>(null)
  const before = useRef(words)
  useEffect(() => {
    if (words && words !== before.current) {
      const calm = window.matchMedia('(prefers-reduced-motion: reduce)').matches
      box.current?.scrollIntoView({ block: 'nearest', behavior: calm ? 'auto' : 'smooth' })
    }
    before.current = words
  }, [words])

  return (
    <div role="alert" ref={box}>
      {advice.length ? (
        <div className="do-now">
          <p className="do-now-title">{say('nowTitle')}</p>
          <AdviceList advice={advice} />
        </div>
      ) : null}
    </div>
  )
}
