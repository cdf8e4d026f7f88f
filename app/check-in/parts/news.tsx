import { sayWhen } from '../answers/times.ts'
import { withOwnAdvice } from '../visit/own-advice.ts'
import type { Visit } from '../visit/use-visit.ts'
import { useSay } from '../words/say.tsx'
import { AdviceList } from './advice-list.tsx'

/** A report that reached the clinic while the person did something else, with advice that must not be missed. */
export function News({ visit }: { visit: Visit }) {
  const say = useSay()
  const { news, view } = visit
  if (!news || !view) return null
  const now = visit.clock.now()
  const here = { view, language: say.language, now: now.toISOString() }
  const urgent = withOwnAdvice(news.receipt, news.report.body, here).filter(
    ({ urgency }) => urgency === 'emergency' || urgency === 'call-now',
  )
  return (
    <div className={urgent.length > 0 ? 'do-now' : 'state'}>
      <p>
        {say('news', { when: sayWhen(news.report.confirmedAt, now, say), receipt: news.receipt.receipt })}
      </p>
      {urgent.length > 0 ? <AdviceList advice={urgent} /> : null}
      <button type="button" className="small" onClick={visit.readNews}>
        {say('newsRead')}
      </button>
    </div>
  )
}
