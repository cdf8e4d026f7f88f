import type { Advice } from '@/lib/domain/submission.ts'
import { useSay } from '../words/say.tsx'

/**
 * Advice as it is to be read: the most urgent first, in words and weight, not by colour alone. Where no qualified
 * person has read a translation, that stands below it.
 */
export function AdviceList({ advice }: { advice: Advice[] }) {
  const say = useSay()
  return (
    <ul className="advice">
      {advice.map(({ text, urgency }) => (
        <li key={text} className={urgency === 'emergency' || urgency === 'call-now' ? 'now' : undefined}>
          {text}
        </li>
      ))}
      {advice.every(({ read }) => read) ? null : <li className="unread">{say('adviceUnread')}</li>}
    </ul>
  )
}
