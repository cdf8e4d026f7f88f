import { adviceFor } from '@/lib/domain/advice.ts'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Advice, Receipt, Submission } from '@/lib/domain/submission.ts'

const order: Advice['urgency'][] = ['emergency', 'call-now', 'call-today', 'information']

/** The receipt's advice with whatever the page itself had told to do: nothing that was said is taken back. */
export function withOwnAdvice(receipt: Receipt, sent: Submission, view: CheckInView): Receipt {
  const said = new Set(receipt.advice.map((advice) => advice.text))
  const own = adviceFor(sent, view.drains).filter(
    (advice) => !said.has(advice.text) && (advice.urgency !== 'information' || receipt.advice.length === 0),
  )
  const advice = [...receipt.advice, ...own].sort(
    (a, b) => order.indexOf(a.urgency) - order.indexOf(b.urgency),
  )
  return { ...receipt, advice }
}
