import type { OwnReport } from '../domain/check-in.ts'
import { UNCONFIRMED_MAX_ML } from '../domain/limits.ts'
import type { Report } from '../domain/record.ts'
import { replacements } from '../domain/standing-reports.ts'
import type { Submission } from '../domain/submission.ts'
import type { StoredLink } from '../store/links.ts'
import type { Composed } from '../store/record.ts'

/** How far back a link may correct what was sent by a link. */
const CORRECTABLE_MS = 48 * 3_600_000

/** Whose link asks: what it may see decides what it may correct, beyond what it sent itself. */
export type Sender = Pick<StoredLink, 'id' | 'holder' | 'holderName' | 'maySee'>

/**
 * The reports that the holder of a link may correct, newest first: sent by a link in the last 48 h, as they stand.
 * What staff entered is not theirs to change; a link that may not see has only what it sent itself.
 */
export function correctable({ record, reports }: Composed, link: Sender, now: Date): OwnReport[] {
  const gone = replacements(record.reports)
  const rows = new Map(reports.map((row) => [row.id, row]))
  return record.reports
    .flatMap((report): OwnReport[] => {
      const row = rows.get(report.id)
      if (!row || gone.has(report.id) || row.door !== 'check-in') return []
      if (now.getTime() - Date.parse(report.receivedAt) > CORRECTABLE_MS) return []
      if (!link.maySee && row.linkId !== link.id) return []
      const body = submissionOf(report, row.note)
      return [{ report: report.id, receivedAt: report.receivedAt, sentBy: row.sentBy, body }]
    })
    .toSorted((a, b) => Date.parse(b.receivedAt) - Date.parse(a.receivedAt))
}

/** A stored report as it would be sent again, with what it leaves open left out. */
export function submissionOf(report: Report, note: string | null): Submission {
  const { readings = [], flushes = [], dressings = [], symptoms } = report
  return {
    readings: readings.map((reading) =>
      (reading.volumeMl ?? 0) > UNCONFIRMED_MAX_ML ? { ...reading, confirmed: true } : reading,
    ),
    flushes,
    dressings,
    symptoms: symptoms ?? null,
    note,
  }
}
