import { adviceFor } from '@/lib/domain/advice.ts'
import type { Advice, Receipt, Submission } from '@/lib/domain/submission.ts'
import { adviceContext, type Here, nameOf } from '../answers/urgent.ts'

const order: Advice['urgency'][] = ['emergency', 'call-now', 'call-today', 'information']

/** What the page itself says to a report, without the clinic's computer. */
export const ownAdvice = (sent: Submission, { view, language, now }: Here): Advice[] =>
  adviceFor(sent, view.drains, adviceContext(view, language, now))

/** The receipt's advice with whatever the page itself had told to do: nothing that was said is taken back. */
export function withOwnAdvice(receipt: Receipt, sent: Submission, here: Here): Advice[] {
  const said = new Set(receipt.advice.map(nameOf))
  const own = ownAdvice(sent, here).filter(
    (advice) =>
      !said.has(nameOf(advice)) && (advice.urgency !== 'information' || receipt.advice.length === 0),
  )
  return [...receipt.advice, ...own].sort((a, b) => order.indexOf(a.urgency) - order.indexOf(b.urgency))
}
