import type { CheckInView, OwnReport } from '@/lib/domain/check-in.ts'
import { sayWhen } from '../answers/times.ts'
import type { Waiting } from '../keep/keep.ts'
import { Screen } from '../parts/screen.tsx'
import { WaitingList } from '../parts/waiting-list.tsx'
import { changeable } from '../visit/changeable.ts'
import { useSay } from '../words/say.tsx'

type Props = {
  view: CheckInView
  waits: Waiting[]
  now: Date
  onChoose: (entry: OwnReport | Waiting) => void
  onBack: () => void
}

/** Which earlier entry to change: one that waits on this phone, or one that the clinic has. */
export function ChooseScreen({ view, waits, now, onChoose, onBack }: Props) {
  const say = useSay()
  const { waiting, sent } = changeable(view, waits)
  return (
    <Screen title={say('chooseTitle')}>
      <p>{waiting.length + sent.length > 0 ? say('chooseText') : say('chooseNone')}</p>
      <WaitingList reports={waiting} now={now} onChange={onChoose} />
      {sent.length > 0 ? (
        <ul className="entries">
          {sent.map((report) => (
            <li key={report.report}>
              <button type="button" onClick={() => onChoose(report)}>
                {say('chooseSent', { when: sayWhen(report.receivedAt, now, say) })}
                {report.sentBy ? ` (${say('chooseBy', { name: report.sentBy })})` : null}
              </button>
            </li>
          ))}
        </ul>
      ) : null}
      <button type="button" onClick={onBack}>
        {say('back')}
      </button>
    </Screen>
  )
}
