import { lazy, Suspense } from 'react'
import { sayWhen } from '../answers/times.ts'
import { fetchRare } from '../screens/later.ts'
import { standing } from '../visit/line.ts'
import type { Visit } from '../visit/use-visit.ts'
import { useSay } from '../words/say.tsx'

const News = lazy(async () => ({ default: (await fetchRare()).News }))

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
        {visit.news ? (
          <Suspense>
            <News visit={visit} />
          </Suspense>
        ) : null}
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
