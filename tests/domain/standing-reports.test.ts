import { expect, it } from 'vitest'
import type { Report } from '@/lib/domain/record.ts'
import { replacements, standingReports } from '@/lib/domain/standing-reports.ts'

const report = (id: string, hour: number, supersedes: string | null = null): Report => ({
  id,
  receivedAt: `2026-11-24T${String(hour).padStart(2, '0')}:00:00Z`,
  supersedes,
})
const ids = (reports: Report[]) => standingReports(reports).map(({ id }) => id)

it('a correction stands in the place of what it names', () => {
  expect(ids([report('a', 1), report('b', 2, 'a'), report('c', 3)])).toEqual(['b', 'c'])
})
it('of two corrections the one received last counts, whatever the order in the list', () => {
  expect(ids([report('c', 3, 'a'), report('b', 2, 'a'), report('a', 1)])).toEqual(['c'])
})
it('a correction of a correction counts', () => {
  expect([...replacements([report('a', 1), report('b', 2, 'a'), report('c', 3, 'b')])]).toEqual([
    ['a', 'c'],
    ['b', 'c'],
  ])
})
it('what a correction names is replaced even where it was received later', () => {
  expect(ids([report('b', 2, 'a'), report('a', 3)])).toEqual(['b'])
})
it('a correction of a report that is not there stands by itself', () => {
  expect(ids([report('b', 2, 'gone')])).toEqual(['b'])
})
it('nothing is nothing', () => {
  expect(ids([])).toEqual([])
})
