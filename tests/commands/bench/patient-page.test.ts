import { expect, it } from 'vitest'
import { asOf, patient } from '../../../lib/commands/bench/patient.ts'
import { measurePage } from '../../../lib/commands/bench/patient-page.ts'
import { moved } from '../../../lib/commands/bench/patient-page-fill.ts'

it('gives the named figures, and reads as many statements as it compares with', {
  timeout: 120_000,
}, async () => {
  const figures = await measurePage({ rounds: 1, warmUpMs: 1, roundMs: 1 }, { at: () => {}, end: () => {} })
  const names = figures.map(({ name }) => name)
  for (const name of ['page-growth', 'page-vs-sql', 'page-statements', 'page-400-days-size'])
    expect(names).toContain(name)
  for (const { name, value } of figures) expect(value, name).toBeGreaterThan(0)
  const value = (wanted: string) => figures.find(({ name }) => name === wanted)?.value
  expect(value('page-statements')).toBeLessThan(40)
  expect(value('page-400-days-size')).toBeLessThan(100)
  expect(value('page-whole-400-days-size')).toBeGreaterThan(500)
})

it('moves every instant of a record by the same, and nothing else', () => {
  const record = patient(1, { days: 2, standingDays: 0 })
  const later = moved(record, 86_400_000)
  expect(later.reports.at(-1)?.receivedAt).toBe('2026-03-31T14:05:00.000Z')
  expect(Date.parse(later.reports.at(-1)?.receivedAt ?? '')).toBeLessThan(Date.parse(asOf) + 86_400_000)
  expect(moved(later, -86_400_000).reports).toEqual(record.reports)
})
