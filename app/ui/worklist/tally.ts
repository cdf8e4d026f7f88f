import type { FindingCode, Urgency } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'

export const URGENCIES = [
  'at-once',
  'within-1h',
  'within-24h',
  'within-3d',
] as const satisfies readonly Urgency[]

/** How many rows there are of each urgency. */
export const countByUrgency = (
  rows: readonly Pick<WorklistRow, 'urgency'>[],
): Record<(typeof URGENCIES)[number], number> =>
  Object.fromEntries(
    URGENCIES.map((urgency) => [urgency, rows.filter((row) => row.urgency === urgency).length]),
  ) as Record<(typeof URGENCIES)[number], number>

const groups: readonly { name: string; codes: readonly FindingCode[] }[] = [
  { name: 'dressings', codes: ['dressing-overdue'] },
  { name: 'logs', codes: ['log-missed'] },
  { name: 'flushes', codes: ['flush-missed'] },
  { name: 'exchanges to book', codes: ['exchange-due'] },
]

/** What is due in the upkeep part, by sort: patients, not flags. */
export function countUpkeep(rows: readonly WorklistRow[]): { name: string; count: number }[] {
  const counted = groups.map(({ name, codes }) => ({
    name,
    count: rows.filter((row) => row.flags.some(({ code }) => codes.includes(code))).length,
  }))
  const named = groups.flatMap(({ codes }) => codes)
  const other = rows.filter((row) => row.flags.some(({ code }) => !named.includes(code))).length
  return [...counted, { name: 'other', count: other }].filter(({ count }) => count > 0)
}
