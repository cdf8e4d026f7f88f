import type { Visit } from '../visit/use-visit.ts'
import { useReviewMark, useSay } from '../words/say.tsx'

/** Below every screen: what the page is, and the way out for a phone that is not the person's own. */
export function Footer({ visit }: { visit: Visit }) {
  const say = useSay()
  const review = useReviewMark()
  const holdsSomething = visit.view !== null || (visit.phase.name === 'closed' && visit.phase.waits > 0)
  return (
    <footer>
      <p>{say('ownClinicFirst')}</p>
      {review ? <p>{review}</p> : null}
      {holdsSomething ? (
        <button type="button" className="quiet" onClick={() => void visit.askToForget()}>
          {say('forgetPhone')}
        </button>
      ) : null}
    </footer>
  )
}
