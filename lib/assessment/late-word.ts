import type { Submission } from '../domain/submission.ts'
import type { Tx } from '../store/index.ts'
import { callStateOf, saveLookAgain } from '../store/patient-states.ts'
import type { Composed } from '../store/record.ts'
import { isRemoved } from './tube.ts'

/**
 * Notes a report that nothing waits for any more, so that the team sees it all the same: its patient's follow-up
 * has ended, or a drain that it speaks of is out. It puts the patient on the worklist until a call is recorded.
 * Call it after the assessment of that report.
 */
export async function noteLateWord(
  tx: Tx,
  composed: Pick<Composed, 'patient' | 'record'>,
  says: Submission,
  receivedAt: string,
): Promise<void> {
  const why = lateWord(composed, says, receivedAt)
  if (why === null) return
  const { id } = composed.patient
  const before = await callStateOf(tx, id)
  const isWaiting =
    before?.lookAgainWhy != null && before.lookAgainAt !== null && before.lookAgainAt <= receivedAt
  if (!isWaiting) await saveLookAgain(tx, id, receivedAt, why)
}

/** Why a report is a late word; null where it is none. */
export function lateWord(
  { patient, record }: Pick<Composed, 'patient' | 'record'>,
  says: Submission,
  receivedAt: string,
): string | null {
  if (patient.followUpEndedAt !== null) return 'a report came after follow-up ended'
  const spoken = [
    ...(says.readings ?? []),
    ...(says.flushes ?? []),
    ...(says.dressings ?? []),
    ...(says.symptoms?.drains ?? []).map(({ drain }) => ({ drain, at: says.symptoms?.at ?? receivedAt })),
  ]
  return spoken.some(({ drain, at }) => wasOut(record, drain, at) && wasOut(record, drain, receivedAt))
    ? 'a report on a drain that was removed'
    : null
}

/** Whether a drain was out at an instant. What was said of the time before is no late word: it comes from a phone without a network. */
const wasOut = (record: Composed['record'], drain: string, at: string): boolean =>
  isRemoved(
    record.staffEvents.filter((event) => event.drain === drain && Date.parse(event.at) <= Date.parse(at)),
  )
