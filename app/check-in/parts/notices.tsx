import { sayWhen } from '../answers/times.ts'
import { standing } from '../visit/line.ts'
import { withOwnAdvice } from '../visit/own-advice.ts'
import type { Visit } from '../visit/use-visit.ts'
import { useSay } from '../words/say.tsx'
import { AdviceList } from './advice-list.tsx'

/** Above every screen: that follow-up has ended, that there is no network, what waits, and what went by itself. */
export function Notices({ visit }: { visit: Visit }) {
  const say = useSay()
  const { view, stale, waits, phase } = visit
  const count = standing(waits).length
  const now = visit.clock.now()
  if (!view || phase.name === 'opening' || phase.name === 'forget') return null
  return (
    <div className="notices">
      {view.followUpEndedAt ? (
        <p className="state">{say('followUpEnded', { when: sayWhen(view.followUpEndedAt, now, say) })}</p>
      ) : null}
      <div role="status">
        {stale ? <p className="state">{say('stale', { when: sayWhen(view.asOf, now, say) })}</p> : null}
        <News visit={visit} />
      </div>
      {count > 0 && phase.name !== 'waiting' ? (
        <div className="state">
          <p role="status">{say('waits', { count })}</p>
          <button type="button" className="small" onClick={() => void visit.showWaiting()}>
            {say('waitsShow')}
          </button>
        </div>
      ) : null}
    </div>
  )
}

/** A report that reached the clinic while the person did something else, with advice that must not be missed. */
function News({ visit }: { visit: Visit }) {
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
