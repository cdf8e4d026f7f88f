import type { Advice } from '@/lib/domain/submission.ts'

/** Advice as it is to be read: the most urgent first, in words and weight, not by colour alone. */
export function AdviceList({ advice }: { advice: Advice[] }) {
  return (
    <ul className="advice">
      {advice.map(({ text, urgency }) => (
        <li key={text} className={urgency === 'emergency' || urgency === 'call-now' ? 'now' : undefined}>
          {text}
        </li>
      ))}
    </ul>
  )
}
