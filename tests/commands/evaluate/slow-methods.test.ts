import { describe, expect, it } from 'vitest'
import { families, keepsPromise, slowMethods } from '../../../lib/commands/evaluate/slow-methods.ts'

const days = (values: number[]) => values.map((netMl, day) => ({ day, netMl }))
const chosen = slowMethods.find(
  ({ name }) => name === 'λ 0.3, width 2.5, latest 10 days, σ ≥ 0.25 × centre, days within ± 2 σ',
)

describe('the compared charts', () => {
  it('come from four families, all but the slope able to keep the promise of three days', () => {
    expect(new Set(slowMethods.map(({ family }) => family))).toEqual(new Set(families))
    expect(new Set(slowMethods.filter(keepsPromise).map(({ family }) => family))).toEqual(
      new Set(['EWMA', 'CUSUM', 'Mann–Kendall']),
    )
  })

  it('say nothing of a level drain or of too few days', () => {
    for (const { signals } of slowMethods) {
      expect(signals(days(Array(20).fill(400)))).toBe(false)
      expect(signals(days([400, 100, 50]))).toBe(false)
      expect(signals([])).toBe(false)
    }
  })

  it('the chosen one needs three low days, and one good day ends it', () => {
    const level = Array<number>(14).fill(400)
    expect(chosen && keepsPromise(chosen)).toBe(true)
    expect(chosen?.signals(days([...level, 0, 0]))).toBe(false)
    expect(chosen?.signals(days([...level, 230, 235, 230]))).toBe(true)
    expect(chosen?.signals(days([...level, 0, 400, 0, 400]))).toBe(false)
    expect(chosen?.signals(days([...level, 0, 0, 420, 410]))).toBe(false)
  })
})
