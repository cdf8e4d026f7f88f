import type { Report } from '../domain/record.ts'
import type { Submission } from '../domain/submission.ts'
import type { ReportHead } from './add-report.ts'
import type { Composed } from './record.ts'
import { stored } from './rows.ts'

/**
 * A composed record with a report that is stored in the same transaction: the same as composing it anew, without
 * reading all of it again. Nothing else may have been stored in between.
 */
export function withReport(
  composed: Composed,
  head: Omit<ReportHead, 'receipt'>,
  says: Submission,
): Composed {
  const { id, receivedAt, door, reporter, sentBy, linkId, enteredBy } = head
  const supersedesId = says.supersedes ?? null
  const known = composed.reports.some((report) => report.id === supersedesId)
  const report: Report = {
    id,
    receivedAt,
    supersedes: known ? supersedesId : null,
    readings: (says.readings ?? []).map(({ drain, at, volumeMl, appearance = null, total = false }) => ({
      drain,
      at: stored(at),
      volumeMl,
      appearance,
      total,
    })),
    flushes: (says.flushes ?? []).map(({ drain, at, volumeMl = null, ease = null }) => ({
      drain,
      at: stored(at),
      volumeMl,
      ease,
    })),
    dressings: (says.dressings ?? []).map(({ drain, at, found = null, skin = null, changed }) => ({
      drain,
      at: stored(at),
      found,
      skin,
      changed,
    })),
    symptoms: symptomsOf(says.symptoms),
  }
  return {
    ...composed,
    record: { ...composed.record, reports: [...composed.record.reports, report] },
    reports: [
      ...composed.reports,
      {
        id,
        receivedAt,
        supersedesId,
        door,
        reporter,
        sentBy,
        linkId,
        enteredBy,
        note: says.note ?? null,
      },
    ],
  }
}

function symptomsOf(says: Submission['symptoms']): Report['symptoms'] {
  if (!says) return null
  const { temperatureC = null, chills = null, pain = null } = says
  const drains = (says.drains ?? []).map(({ drain, position = null, leak = null, draining = null }) => ({
    drain,
    position,
    leak,
    draining,
  }))
  return { at: stored(says.at), temperatureC, chills, pain, general: says.general, drains }
}
