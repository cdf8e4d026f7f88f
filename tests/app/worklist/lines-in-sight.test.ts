import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { beginnings, drawnLines, lineAt } from '@/app/ui/worklist/lines-in-sight.ts'

const heights = fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 60 })

describe('the lines that are drawn', () => {
  it('with the blank rooms between are as high as all lines', () => {
    fc.assert(
      fc.property(heights, fc.nat(60), fc.nat(60), fc.integer({ min: -1, max: 60 }), (list, a, b, kept) => {
        const sums = beginnings(list, list.length)
        const { drawn, afterPx } = drawnLines(sums, { from: Math.min(a, b), to: Math.max(a, b) }, kept)
        const high = drawn.reduce((sum, { index, roomPx }) => sum + roomPx + (list[index] ?? 0), afterPx)
        expect(high).toBe(list.reduce((sum, height) => sum + height, 0))
        expect(drawn.map(({ index }) => index)).toEqual(
          [...new Set(drawn.map(({ index }) => index))].toSorted((x, y) => x - y),
        )
        if (kept >= 0 && kept < list.length) expect(drawn.some(({ index }) => index === kept)).toBe(true)
      }),
    )
  })

  it('are all those that are in sight', () => {
    fc.assert(
      fc.property(heights, fc.nat(4000), fc.integer({ min: 1, max: 900 }), (list, y, height) => {
        const sums = beginnings(list, list.length)
        const [from, to] = [lineAt(sums, y), lineAt(sums, y + height)]
        list.forEach((_, i) => {
          const isInSight = (sums[i] ?? 0) < y + height && (sums[i + 1] ?? 0) > y
          if (isInSight) expect(i >= from && i <= to).toBe(true)
        })
      }),
    )
  })

  it('are found above the first and below the last, too', () => {
    const sums = beginnings([10, 20, 30], 3)
    expect([...sums]).toEqual([0, 10, 30, 60])
    expect([-5, 0, 9, 10, 29, 30, 59, 60, 900].map((y) => lineAt(sums, y))).toEqual([
      0, 0, 0, 1, 1, 2, 2, 2, 2,
    ])
    expect(lineAt(beginnings([], 0), 5)).toBe(0)
    expect(drawnLines(beginnings([], 0), { from: 0, to: 5 }, -1)).toEqual({ drawn: [], afterPx: 0 })
  })
})
