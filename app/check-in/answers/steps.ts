import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Draft } from './draft.ts'

/** The screens of one report, in order. Screens of a drain carry its id. */
export type StepKind = 'feel' | 'tube' | 'output' | 'flush' | 'dressing' | 'body' | 'check'
export type Step = { id: string; kind: StepKind; drain: string | null }

/**
 * Which screens this person needs now. How they feel comes first, since that is what cannot wait. A tube
 * that is out or capped is asked neither for output nor, when out, for a flush.
 */
export function stepsOf(view: CheckInView, draft: Draft): Step[] {
  const own = view.drains.flatMap((drain) => {
    const out = draft.drains[drain.id]?.position === 'out'
    const kinds: StepKind[] = ['tube']
    if (!drain.capped && !out) kinds.push('output')
    if (drain.flush && !out) kinds.push('flush')
    kinds.push('dressing')
    return kinds.map((kind) => ({ id: `${kind}:${drain.id}`, kind, drain: drain.id }))
  })
  return [whole('feel'), ...own, whole('body'), whole('check')]
}

const whole = (kind: StepKind): Step => ({ id: kind, kind, drain: null })
