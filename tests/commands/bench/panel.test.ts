import { expect, it } from 'vitest'
import { runPanel } from '../../../lib/commands/bench/panel.ts'

it('streams the patients, tells how far it is, and reports seconds and peak memory', () => {
  const told: number[] = []
  const times = runPanel(20, 10, (done) => told.push(done))
  expect(times.patients).toBe(20)
  expect(times.assessSeconds).toBeGreaterThan(0)
  expect(times.seconds).toBeGreaterThan(0)
  expect(times.peakMegabytes).toBeGreaterThan(10)
  expect(told.at(-1)).toBe(20)
})
