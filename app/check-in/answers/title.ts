import type { CheckInView } from '@/lib/domain/check-in.ts'
import { titles } from '../words/questions.ts'
import { say } from '../words/say.ts'
import type { Step } from './steps.ts'

/** The heading of a screen; with the drain's own name where it is about a drain. */
export function titleOf(step: Step, view: CheckInView): string {
  const label = view.drains.find((drain) => drain.id === step.drain)?.label ?? ''
  switch (step.kind) {
    case 'feel':
      return titles.feel
    case 'body':
      return titles.body
    case 'check':
      return say.checkTitle
    default:
      return titles[step.kind](label)
  }
}
