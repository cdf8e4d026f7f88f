import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Say } from '../words/catalogue.ts'
import type { Step } from './steps.ts'

/** The heading of a screen; with the drain's own name where it is about a drain. */
export function titleOf(step: Step, view: CheckInView, say: Say): string {
  const label = view.drains.find((drain) => drain.id === step.drain)?.label ?? ''
  return say(`title.${step.kind}`, { label })
}
