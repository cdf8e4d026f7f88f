import type { CheckInView } from '@/lib/domain/check-in.ts'
import { AdviceBox } from '../parts/advice-box.tsx'
import { OpenNow } from '../parts/open-now.tsx'
import { Screen } from '../parts/screen.tsx'
import { WaitingList } from '../parts/waiting-list.tsx'
import { standing } from '../visit/line.ts'
import { ownAdvice } from '../visit/own-advice.ts'
import type { Why } from '../visit/phase.ts'
import type { Visit } from '../visit/use-visit.ts'
import { useSay, type WordKey } from '../words/say.tsx'

type Props = { view: CheckInView; sent: string; why: Why; visit: Visit; now: Date }

const titles: Readonly<Record<Why, WordKey>> = {
  sending: 'sendingTitle',
  unreachable: 'waitingTitle',
  'link-ended': 'endedTitle',
  refused: 'refusedTitle',
}

/** Confirmed and not answered yet: says so plainly, gives the advice that needs no network, and lists all that waits. */
export function WaitingScreen({ view, sent, why, visit, now }: Props) {
  const say = useSay()
  const { waits, lasting } = visit
  const report = waits.find(({ key }) => key === sent)
  const here = { view, language: say.language, now: now.toISOString() }
  const texts: Readonly<Record<Why, WordKey>> = {
    sending: 'sendingText',
    unreachable: lasting ? 'waitingKept' : 'waitingOnlyHere',
    'link-ended': lasting ? 'endedKept' : 'endedOnlyHere',
    refused: 'refusedText',
  }
  if (why === 'sending')
    return (
      <Screen title={say(titles[why])}>
        <p role="status">{say(texts[why])}</p>
      </Screen>
    )
  const advice = report ? ownAdvice(report.body, here) : []
  const isUrgent = advice.some(({ urgency }) => urgency === 'emergency' || urgency === 'call-now')
  const box = advice.length > 0 ? <AdviceBox advice={advice} /> : null
  return (
    <Screen title={say(titles[why])}>
      {isUrgent ? box : null}
      <p role="status">{say(texts[why])}</p>
      <WaitingList reports={standing(waits)} now={now} onChange={(entry) => void visit.change(entry)} />
      {isUrgent ? null : box}
      <OpenNow clinic={view.clinic} now={now} />
      {why === 'unreachable' ? (
        <button type="button" data-main="" onClick={() => void visit.tryAgain()}>
          {say('tryNow')}
        </button>
      ) : null}
      <button type="button" onClick={() => void visit.another()}>
        {say('another')}
      </button>
    </Screen>
  )
}
