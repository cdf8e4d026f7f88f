import { describe, expect, it } from 'vitest'
import { pictureOf, ticksFor } from '../../../app/ui/numbers/chart.ts'

const hour = (h: number, opened: number | null, attempts: number | null, reached: number | null) => ({
  from: `2026-03-02T${String(h).padStart(2, '0')}:00:00.000Z`,
  label: `${String(h).padStart(2, '0')}:00`,
  opened,
  attempts,
  reached,
})

describe('the picture of a day', () => {
  it('draws a bar for each number, none for none, and none for what lies ahead', () => {
    const { bars, aheadX, ticks } = pictureOf([hour(0, 2, 4, 0), hour(1, null, null, null)])
    expect(bars.map(({ series }) => series)).toEqual(['opened', 'attempts'])
    const [opened, attempts] = bars
    expect((attempts?.height ?? 0) / (opened?.height ?? 1)).toBeCloseTo(2)
    expect(aheadX).toBeGreaterThan(36)
    expect(ticks.map(({ value }) => value)).toEqual([0, 1, 2, 3, 4])
  })

  it('has whole numbers on its axis', () => {
    expect(ticksFor(1)).toEqual([0, 1])
    expect(ticksFor(7)).toEqual([0, 2, 4, 6, 8])
    expect(ticksFor(43)).toEqual([0, 10, 20, 30, 40, 50])
  })
})
