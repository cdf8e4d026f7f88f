import type { Advice } from '@/lib/domain/submission.ts'
import { useSay } from '../words/say.tsx'

/** On the screens that follow: a way back to urgent advice, always in sight. */
export function AdviceStrip({ advice, onRead }: { advice: Advice[]; onRead: () => void }) {
  const say = useSay()
  const [first] = advice
  if (!first) return null
  return (
    <aside className="strip" aria-label={say('nowTitle')}>
      <p>{first.urgency === 'emergency' ? say('nowStrip') : say('callStrip')}</p>
      <button type="button" onClick={onRead}>
        {say('nowRead')}
      </button>
    </aside>
  )
}
