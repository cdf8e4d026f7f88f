import { adviceFor } from '@/lib/domain/advice.ts'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Waiting } from '../keep/keep.ts'
import { AdviceBox } from '../parts/advice-box.tsx'
import { Screen } from '../parts/screen.tsx'
import { say } from '../words/say.ts'

type Props = {
  view: CheckInView
  report: Waiting
  why: 'sending' | 'unreachable' | 'link-ended'
  lasting: boolean
  onTry: () => void
}

/** Confirmed and not answered yet: says so plainly, and gives the advice that needs no network. */
export function WaitingScreen({ view, report, why, lasting, onTry }: Props) {
  const title = { sending: say.sendingTitle, unreachable: say.waitingTitle, 'link-ended': say.endedTitle }[
    why
  ]
  return (
    <Screen title={title}>
      <div role="status">
        {why === 'sending' ? <p>{say.sendingText}</p> : null}
        {why === 'unreachable' ? <p>{lasting ? say.waitingKept : say.waitingOnlyHere}</p> : null}
        {why === 'link-ended' ? <p>{lasting ? say.endedKept : say.endedOnlyHere}</p> : null}
      </div>
      {why === 'sending' ? null : <AdviceBox advice={adviceFor(report.body, view.drains)} />}
      {why === 'unreachable' ? (
        <button type="button" data-main="" onClick={onTry}>
          {say.tryNow}
        </button>
      ) : null}
    </Screen>
  )
}
