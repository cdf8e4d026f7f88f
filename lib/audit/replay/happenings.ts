import type { HistoryCall, PatientHistory } from '../../store/replay-history.ts'
import { isReason } from '../../store/staff-events.ts'

/** Something that was recorded of a patient and made the rules look anew, or is known to move flags by itself. */
export type Happening =
  | { at: number; kind: 'news' }
  | { at: number; kind: 'call' | 'undone' | 'corrected'; call: HistoryCall; original: HistoryCall }
  | { at: number; kind: 'withdrawn'; recordedAt: string; isCorrection: boolean }
  | { at: number; kind: 'admitted' | 'home' | 'left' | 'back' }

const ms = (instant: string) => Date.parse(instant)

/** All that happened to a patient up to an instant, in the order of time; at one instant what ends comes first. */
export function happeningsOf(history: PatientHistory, until: number): Happening[] {
  const list: Happening[] = [{ at: ms(history.recordedAt), kind: 'news' }]
  const news = (at: string | null) => {
    if (at !== null) list.push({ at: ms(at), kind: 'news' })
  }
  for (const report of history.reports) {
    news(report.receivedAt)
    news(report.movedAt)
  }
  for (const { recordedAt } of [...history.details, ...history.visits]) news(recordedAt)
  for (const plan of history.plans) {
    news(plan.recordedAt)
    if (plan.withdrawnAt !== null) withdrawn(list, plan.withdrawnAt, plan.recordedAt, false)
  }
  for (const event of history.events) {
    if (isReason(event)) continue
    news(event.recordedAt)
    if (event.withdrawnAt === null) continue
    // What came with a call is withdrawn with the call, whose own happening says what becomes of the flags.
    if (event.callbackId !== null) news(event.withdrawnAt)
    else {
      const { withdrawnAt, recordedAt, drainId, type } = event
      const reason = history.events.some(
        (one) =>
          isReason(one) && one.recordedAt === withdrawnAt && one.drainId === drainId && one.type === type,
      )
      withdrawn(list, withdrawnAt, recordedAt, reason)
    }
  }
  calls(list, history.calls)
  for (const { recordedAt, endedAt } of history.stays) {
    list.push({ at: ms(recordedAt), kind: 'admitted' })
    if (endedAt !== null) list.push({ at: ms(endedAt), kind: 'home' })
  }
  for (const { recordedAt, step } of history.followUp)
    if (step !== 'undo-asked') list.push({ at: ms(recordedAt), kind: step === 'ended' ? 'left' : 'back' })
  return list.filter(({ at }) => at <= until).sort((a, b) => a.at - b.at)
}

function withdrawn(list: Happening[], at: string, recordedAt: string, isCorrection: boolean): void {
  list.push({ at: ms(at), kind: 'withdrawn', recordedAt, isCorrection })
}

function calls(list: Happening[], all: readonly HistoryCall[]): void {
  const byId = new Map(all.map((call) => [call.id, call]))
  for (const call of all) {
    const original = call.corrects === null ? call : byId.get(call.corrects)
    if (!original) continue
    const kind = call.corrects === null ? 'call' : 'corrected'
    list.push({ at: ms(call.recordedAt), kind, call, original })
    if (call.undoneAt !== null) list.push({ at: ms(call.undoneAt), kind: 'undone', call, original: call })
  }
}
