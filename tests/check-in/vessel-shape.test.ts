import { describe, expect, it } from 'vitest'
import { BOTTOM, heightOf, markAt, scaleOf, TOP, vesselOf } from '../../app/check-in/parts/vessel-shape.ts'

describe('the picture of the marks', () => {
  it('has the marks of the vessel and a number at some of them', () => {
    expect(scaleOf(600, 50)).toEqual({ step: 50, labels: [100, 200, 300, 400, 500, 600] })
    expect(scaleOf(100, 5)).toEqual({ step: 5, labels: [20, 40, 60, 80, 100] })
    expect(scaleOf(600, null)).toEqual({ step: 50, labels: [100, 200, 300, 400, 500, 600] })
  })

  it('draws no more marks than can be told apart', () => {
    for (const capacity of [30, 50, 100, 240, 400, 500, 600, 750, 1000, 2000, 3000])
      for (const mark of [null, 1, 2, 5, 10, 25, 30, 50, 100]) {
        const { step, labels } = scaleOf(capacity, mark)
        expect(capacity / step).toBeLessThanOrEqual(30)
        expect(labels.length).toBeGreaterThan(0)
        expect(labels.length).toBeLessThanOrEqual(6)
        for (const label of labels)
          expect(Math.abs(label / step - Math.round(label / step))).toBeLessThan(1e-9)
      }
  })

  it('has its fluid between the bottom and the top, whatever was written', () => {
    expect(heightOf(0, 600)).toBe(BOTTOM)
    expect(heightOf(600, 600)).toBe(TOP)
    expect(heightOf(5000, 600)).toBe(TOP)
    expect(heightOf(-1, 600)).toBe(BOTTOM)
  })

  it('takes a tap for the nearest mark', () => {
    const tap = (ml: number) => markAt(heightOf(ml, 600), 600, 50)
    expect([tap(0), tap(24), tap(26), tap(430), tap(600)]).toEqual([0, 0, 50, 450, 600])
    expect(markAt(0, 600, 50)).toBe(600)
    expect(markAt(222, 600, 50)).toBe(0)
  })

  it('is of the likeliest vessel where nobody has said', () => {
    expect(vesselOf({ vessel: null, kind: 'bulb' })).toBe('bulb')
    expect(vesselOf({ vessel: null, kind: 'pleural' })).toBe('bottle')
    expect(vesselOf({ vessel: 'cup', kind: 'bulb' })).toBe('cup')
    expect(vesselOf({ vessel: null, kind: 'biliary' })).toBe('bag')
  })
})
