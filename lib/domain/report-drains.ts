import type { Report } from './record.ts'

/** The drains that a report speaks of, each with the earliest time of which it says something. */
export function drainsOfReport(
  report: Pick<Report, 'readings' | 'flushes' | 'dressings' | 'symptoms'>,
): { drain: string; firstAt: string }[] {
  const { readings = [], flushes = [], dressings = [], symptoms } = report
  const said = [
    ...readings,
    ...flushes,
    ...dressings,
    ...(symptoms?.drains ?? []).map(({ drain }) => ({ drain, at: symptoms?.at ?? '' })),
  ]
  const first = new Map<string, string>()
  for (const { drain, at } of said) {
    const before = first.get(drain)
    if (before === undefined || Date.parse(at) < Date.parse(before)) first.set(drain, at)
  }
  return [...first].map(([drain, firstAt]) => ({ drain, firstAt }))
}
