import type { Problem } from '@/lib/domain/problem.ts'
import type { Receipt } from '@/lib/domain/submission.ts'
import type { Answer } from './doors.ts'
import type { Keep, Waiting } from './keep.ts'

export type Delivery =
  | { kind: 'received'; report: Waiting; receipt: Receipt }
  | { kind: 'nothing-waits' }
  | { kind: 'unreachable'; report: Waiting }
  | { kind: 'link-ended'; report: Waiting }
  | { kind: 'refused'; report: Waiting; problem: Problem }

/**
 * Sends what waits for one person, the oldest first, and stops at the first that does not get through.
 * Answers with the last that went, or with the one that did not. Only reports of this person are sent: a
 * phone may hold another's, and the session belongs to one.
 */
export async function deliver(
  keep: Keep,
  person: string,
  send: (report: Waiting) => Promise<Answer<Receipt>>,
  newKey: () => string,
): Promise<Delivery> {
  return oneTabAtATime(async () => {
    let last: Delivery = { kind: 'nothing-waits' }
    for (const report of await keep.waitingOf(person)) {
      const answer = await send(report)
      if (answer.kind === 'unreachable' || answer.kind === 'link-ended') return { kind: answer.kind, report }
      if (answer.kind === 'refused') {
        await keep.giveBack(report, newKey())
        return { kind: 'refused', report, problem: answer.problem }
      }
      await keep.settle(report, answer.value)
      last = { kind: 'received', report, receipt: answer.value }
    }
    return last
  })
}

/** A second tab waits for the first, and then finds nothing left to send. */
async function oneTabAtATime<T>(work: () => Promise<T>): Promise<T> {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return work()
  return (await navigator.locks.request('check-in-send', work)) as T
}
