import type { Fault } from '../domain/problem.ts'
import { replacements } from '../domain/standing-reports.ts'
import type { Submission } from '../domain/submission.ts'
import type { Tx } from '../store/index.ts'
import type { Composed } from '../store/record.ts'
import { idOfKey, isReportOf } from '../store/reports.ts'
import { correctable, type Sender } from './own-reports.ts'

type From = { clinicId: string; source: string; link?: Sender | undefined }

/**
 * The report that a submission corrects, by its id or by the key under which the same source sent it. Where that one
 * was corrected before, the newest of the chain is meant. A link corrects what was sent by a link in the last 48 h.
 */
export async function correctionOf(
  tx: Tx,
  composed: Composed,
  { clinicId, source, link }: From,
  { supersedes = null, supersedesKey = null }: Submission,
  now: Date,
): Promise<{ corrects: string | null; faults: Fault[] }> {
  const { patient, record } = composed
  if (supersedes === null && supersedesKey === null) return { corrects: null, faults: [] }
  const refused = (field: string, value: string | null, message: string) => ({
    corrects: null,
    faults: [{ field, value, message }],
  })
  if (supersedes !== null && !(await isReportOf(tx, patient.id, supersedes)))
    return refused(
      'supersedes',
      supersedes,
      'names no report of this patient; accepted: the id of the report that it corrects',
    )
  const sent =
    supersedesKey === null ? null : await idOfKey(tx, { clinicId, source, key: supersedesKey }, patient.id)
  if (supersedesKey !== null && sent === null)
    return refused(
      'supersedesKey',
      supersedesKey,
      'names no report of this patient that you sent; accepted: the Idempotency-Key of a report that has been taken, so send that one first',
    )
  if (sent !== null && supersedes !== null && sent !== supersedes)
    return refused(
      'supersedesKey',
      supersedesKey,
      'names another report than supersedes does; accepted: one of the two, or both for the same report',
    )
  const named = sent ?? supersedes
  const newest = named === null ? null : (replacements(record.reports).get(named) ?? named)
  if (link && !correctable(composed, link, now).some(({ report }) => report === newest))
    return refused(
      supersedes === null ? 'supersedesKey' : 'supersedes',
      supersedes ?? supersedesKey,
      'names a report that this link cannot correct; accepted: one that was sent by link in the last 48 hours; for others call your clinic',
    )
  return { corrects: newest, faults: [] }
}
