import type { Advice } from '@/lib/domain/submission.ts'
import { useSay } from '../words/say.tsx'
import { AdviceList } from './advice-list.tsx'

/** What to do after the report, framed as urgent when any of it is. */
export function AdviceBox({ advice }: { advice: Advice[] }) {
  const say = useSay()
  const urgent = advice.some(({ urgency }) => urgency === 'emergency' || urgency === 'call-now')
  return (
    <div className={urgent ? 'do-now' : 'state'}>
      {urgent ? <h2>{say('nowTitle')}</h2> : null}
      <AdviceList advice={advice} />
    </div>
  )
}
