import type { Receipt } from '@/lib/domain/submission.ts'
import { sayWhen } from '../answers/times.ts'
import { AdviceBox } from '../parts/advice-box.tsx'
import { Screen } from '../parts/screen.tsx'
import { say } from '../words/say.ts'

type Props = { receipt: Receipt; now: Date; onAnother: () => void }

/** The clinic's computer has it: what to do next, and the number that says so on the phone. */
export function ReceiptScreen({ receipt, now, onAnother }: Props) {
  return (
    <Screen title={say.receiptTitle}>
      <AdviceBox advice={receipt.advice} />
      <dl className="receipt">
        <div>
          <dt>{say.receiptNumber}</dt>
          <dd>{receipt.receipt}</dd>
        </div>
        <div>
          <dt>{say.receivedAt}</dt>
          <dd>{sayWhen(receipt.receivedAt, now)}</dd>
        </div>
      </dl>
      <p>{say.receiptRead}</p>
      <button type="button" onClick={onAnother}>
        {say.another}
      </button>
    </Screen>
  )
}
