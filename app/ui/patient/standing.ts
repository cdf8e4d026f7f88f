import type { Flag } from '@/lib/domain/flag.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Report } from '@/lib/domain/record.ts'
import { type Urgency, urgencyRank } from '@/lib/domain/words.ts'

/** The flags that stand, the most pressing first. */
export const standingFlags = (flags: readonly Flag[]): Flag[] =>
  flags
    .filter(({ state }) => state === 'open' || state === 'owed')
    .toSorted(
      (a, b) => urgencyRank[b.urgency] - urgencyRank[a.urgency] || Date.parse(a.actBy) - Date.parse(b.actBy),
    )

/** The patient's urgency and act by, from the flags that stand: the most urgent, and the earliest. */
export function pressing(flags: readonly Flag[]): { urgency: Urgency; actBy: Instant | null } {
  const standing = standingFlags(flags)
  const byTime = standing.map(({ actBy }) => actBy).toSorted((a, b) => Date.parse(a) - Date.parse(b))
  return { urgency: standing[0]?.urgency ?? 'none', actBy: byTime[0] ?? null }
}

/** The latest receipt of a report; null if none came yet. */
export const lastHeard = (reports: readonly { receivedAt: Instant }[]): Instant | null =>
  reports.map(({ receivedAt }) => receivedAt).toSorted((a, b) => Date.parse(b) - Date.parse(a))[0] ?? null

/** The newest report that the reader did not enter: of one's own there is nothing to be told. */
export const newestOfOthers = (
  { record, reports }: Pick<PatientPage, 'record' | 'reports'>,
  self: string,
): Report | undefined =>
  record.reports
    .filter(({ id }) => reports[id]?.enteredBy !== self)
    .toSorted((a, b) => Date.parse(b.receivedAt) - Date.parse(a.receivedAt))[0]
