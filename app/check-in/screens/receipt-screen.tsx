import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Receipt, Submission } from '@/lib/domain/submission.ts'
import { sayWhen } from '../answers/times.ts'
import { AdviceBox } from '../parts/advice-box.tsx'
import { OpenNow } from '../parts/open-now.tsx'
import { Screen } from '../parts/screen.tsx'
import { withOwnAdvice } from '../visit/own-advice.ts'
import { useSay } from '../words/say.tsx'

type Props = {
  receipt: Receipt
  sent: Submission
  view: CheckInView
  now: Date
  onAnother: () => void
  onChange: () => void
}

/** The clinic's computer has it: what to do next, the number that says so on the phone, and whether it was read. */
export function ReceiptScreen({ receipt, sent, view, now, onAnother, onChange }: Props) {
  const say = useSay()
  const here = { view, language: say.language, now: now.toISOString() }
  const isRead = view.lastReadAt !== null && view.lastReadAt >= receipt.receivedAt
  return (
    <Screen title={say('receiptTitle')}>
      <AdviceBox advice={withOwnAdvice(receipt, sent, here)} />
      <OpenNow clinic={view.clinic} now={now} />
      <dl className="receipt">
        <div>
          <dt>{say('receiptNumber')}</dt>
          <dd>{receipt.receipt}</dd>
        </div>
        <div>
          <dt>{say('receivedAt')}</dt>
          <dd>{sayWhen(receipt.receivedAt, now, say)}</dd>
        </div>
      </dl>
      <p role="status">
        {isRead && view.lastReadAt
          ? say('readAt', { when: sayWhen(view.lastReadAt, now, say) })
          : say('notReadYet')}
      </p>
      <button type="button" onClick={onAnother}>
        {say('another')}
      </button>
      <button type="button" onClick={onChange}>
        {say('changeEarlier')}
      </button>
    </Screen>
  )
}
