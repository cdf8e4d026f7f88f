import type { Report } from './record.ts'

/**
 * The reports that count: of several corrections of one report the one received last, and never one that was
 * replaced. Oldest receipt first.
 */
export function standingReports(reports: readonly Report[]): Report[] {
  const replaced = replacements(reports)
  return reports.filter(({ id }) => !replaced.has(id)).toSorted(byReceipt)
}

/**
 * By the id of a report that no longer counts, the id of the report that stands in its place. What a correction
 * names is replaced even where it was received later than the correction, as in the rules.
 */
export function replacements(reports: readonly Report[]): Map<string, string> {
  const byId = new Map(reports.map((report) => [report.id, report]))
  const corrected = new Set(reports.map(({ supersedes }) => supersedes))
  const newest = new Map<string, Report>()
  for (const report of reports) {
    if (corrected.has(report.id)) continue
    const root = rootOf(report, byId)
    const before = newest.get(root)
    if (!before || byReceipt(before, report) < 0) newest.set(root, report)
  }
  const gone = new Map<string, string>()
  for (const report of reports) {
    const last = newest.get(rootOf(report, byId))
    if (last && last.id !== report.id) gone.set(report.id, last.id)
  }
  return gone
}

/** The first report of a chain of corrections. A circle, which no stored record has, ends where it began. */
function rootOf(report: Report, byId: ReadonlyMap<string, Report>): string {
  const seen = new Set<string>()
  let at = report
  for (;;) {
    seen.add(at.id)
    const before = at.supersedes ? byId.get(at.supersedes) : undefined
    if (!before || seen.has(before.id)) return at.id
    at = before
  }
}

const byReceipt = (a: Report, b: Report) => Date.parse(a.receivedAt) - Date.parse(b.receivedAt)
