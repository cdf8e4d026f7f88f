import { expect, it } from 'vitest'
import { lastHeard, newestOfOthers, pressing, standingFlags } from '@/app/ui/patient/standing.ts'
import { flag } from '../fixtures/flag.ts'
import { page } from '../fixtures/page.ts'

const flags = [
  flag({ id: 'a', urgency: 'within-24h', actBy: '2026-11-24T12:00:00Z' }),
  flag({ id: 'b', urgency: 'within-1h', actBy: '2026-11-24T15:00:00Z', state: 'owed' }),
  flag({ id: 'c', urgency: 'at-once', state: 'closed' }),
]

it('only what stands counts, the most urgent first', () => {
  expect(standingFlags(flags).map(({ id }) => id)).toEqual(['b', 'a'])
})
it('the urgency is the most urgent flag’s, the act by the earliest of all', () => {
  expect(pressing(flags)).toEqual({ urgency: 'within-1h', actBy: '2026-11-24T12:00:00Z' })
  expect(pressing([])).toEqual({ urgency: 'none', actBy: null })
})
it('the latest receipt is when the patient was last heard', () => {
  expect(lastHeard(page().record.reports)).toBe('2026-11-24T13:56:00Z')
  expect(lastHeard([])).toBeNull()
})
it('of reports that one entered oneself there is nothing to be told', () => {
  expect(newestOfOthers(page(), 'J. Sund (invented)')?.id).toBe('r3')
  const own = page()
  for (const about of Object.values(own.reports)) about.enteredBy = 'J. Sund (invented)'
  expect(newestOfOthers(own, 'J. Sund (invented)')).toBeUndefined()
})
