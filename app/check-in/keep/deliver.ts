import type { Problem } from '@/lib/domain/problem.ts'
import type { Receipt } from '@/lib/domain/submission.ts'
import type { Answer } from './doors.ts'
import type { Keep, Waiting } from './keep.ts'

export type Received = { report: Waiting; receipt: Receipt }

/** What went, what was refused, and at which report it stopped; `stopped` is null when nothing is left to send. */
export type Delivery = {
  received: Received[]
  refused: { report: Waiting; problem: Problem }[]
  stopped: { report: Waiting; why: 'unreachable' | 'link-ended' } | null
}

/**
 * Sends what waits for one person, the oldest first, and stops at the first that does not get through. A refused
 * one is set aside, so that those behind it go on. Only reports of this person are sent: a phone may hold
 * another's, and the session belongs to one.
 */
export async function deliver(
  keep: Keep,
  person: string,
  send: (report: Waiting) => Promise<Answer<Receipt>>,
): Promise<Delivery> {
  return oneTabAtATime(async () => {
    const delivery: Delivery = { received: [], refused: [], stopped: null }
    for (;;) {
      // Read anew for each: setting one aside changes those behind it, and more may have come.
      const report = (await keep.waitingOf(person)).find(({ problem }) => !problem)
      if (!report) return delivery
      const answer = await send(report)
      if (answer.kind === 'unreachable' || answer.kind === 'link-ended')
        return { ...delivery, stopped: { report, why: answer.kind } }
      if (answer.kind === 'refused') {
        await keep.setAside(report, answer.problem)
        delivery.refused.push({ report, problem: answer.problem })
      } else {
        await keep.settle(report, answer.value)
        delivery.received.push({ report, receipt: answer.value })
      }
    }
  })
}

/** A second tab waits for the first, and then finds nothing left to send. */
async function oneTabAtATime<T>(work: () => Promise<T>): Promise<T> {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return work()
  return (await navigator.locks.request('check-in-send', work)) as T
}
