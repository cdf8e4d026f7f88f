import { describe, expect, it } from 'vitest'
import { slowChart, slowDecline } from '../../../lib/rules/findings/slow-decline.ts'
import { closed, days, drainView, reading, record } from '../../support/build.ts'

const many = (count: number, ml: number) => Array.from({ length: count }, () => ml)
const view = (volumes: readonly (number | null)[], events: Parameters<typeof record>[2] = []) =>
  drainView(record({}, days(volumes), events), 2000)
const sunk = (...args: Parameters<typeof view>) => slowDecline(view(...args)) !== null

/*
 * Five or more days of 400: centre 400, σ = 0.25 × 400 = 100. The limit is −2.5 × √(0.3 / 1.7) = −1.0502.
 * Three equal days at z give z × (1 − 0.7³) = 0.657 z: at 240 mL, z = −1.6, that is −1.0512.
 */
describe('a slow fall on the chart', () => {
  it.each([
    ['three days of 60%', [...many(5, 400), ...many(3, 240)], true],
    ['three days of a little more', [...many(5, 400), ...many(3, 241)], false],
    ['two days of nothing: held within 2 σ, −1.02', [...many(10, 400), 0, 0], false],
    ['three days of nothing', [...many(10, 400), 0, 0, 0], true],
    ['a week of 80%: 0.5 σ never reaches it', [...many(12, 400), ...many(7, 350)], false],
    ['a rise', [...many(10, 400), ...many(5, 700)], false],
    ['too few days before', [...many(4, 400), ...many(3, 100)], false],
    ['too few days since', [...many(8, 400), 240], false],
    ['no day', [], false],
  ] as const)('%s', (_, volumes, expected) => {
    expect(sunk(volumes)).toBe(expected)
  })
  it('has its averages and its limit', () => {
    const chart = slowChart(view([...many(5, 400), ...many(3, 240)]))
    expect(chart).toMatchObject({ centreMl: 400, sigmaMl: 100 })
    expect(chart?.lower).toBeCloseTo(-1.0502, 4)
    expect(chart?.averages.map((z) => Number(z.toFixed(4)))).toEqual([-0.48, -0.816, -1.0512]) // 0.3 × −1.6, …
  })
  it('charts the latest ten days against up to three weeks before them', () => {
    const chart = slowChart(view([...many(10, 900), ...many(21, 400), ...many(10, 390)]))
    expect(chart?.days).toHaveLength(10)
    expect(chart?.centreMl).toBe(400)
  })
  it('takes its width from the drain’s own days where they vary', () => {
    // 300 and 500 by turns: median 400, all 100 away from it, 1.4826 × 100 = 148.26.
    expect(slowChart(view([300, 500, 300, 500, 400, 300, 500, 400, 400, 400]))?.sigmaMl).toBeGreaterThan(100)
  })
  it('takes 15 mL a day for the least that days differ', () => {
    expect(slowChart(view(many(8, 20)))?.sigmaMl).toBe(15)
  })
})

describe('what it leaves out', () => {
  it('days of a long or suspect stretch', () => {
    const told = [...days(many(5, 400)), reading(24 * 5 + 73, 240 * 3), ...days([240, 240], 9)]
    const chart = slowChart(drainView(record({}, told), 2000))
    expect(chart).toBeNull() // of the low days only the last is clean
  })
  it('what staff have closed: it starts anew with the days after it', () => {
    const volumes = [...many(5, 400), ...many(3, 240), ...many(2, 240)]
    expect(sunk(volumes)).toBe(true)
    expect(sunk(volumes, [closed(24 * 8, 'output-decline')])).toBe(false)
    expect(sunk([...volumes, 240], [closed(24 * 8, 'output-decline')])).toBe(true) // three low days since
  })
})

describe('what it tells', () => {
  it('the level of the latest days, that before them, and the chart', () => {
    const told = slowDecline(view([...many(5, 400), ...many(3, 240)]))?.tell()
    expect(told?.says).toContain(
      '240 mL a day over the latest 3 whole days, 60% of the 400 mL/day before them',
    )
    expect(told?.says).toContain('(control chart -1.05, limit -1.05)')
    expect(told?.threshold).toMatchObject({ name: 'slowWidth', value: 2.5 })
  })
})
