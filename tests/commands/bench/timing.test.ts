import { describe, expect, it } from 'vitest'
import { millisecondsOf, ratioOf, takeTurns } from '../../../lib/commands/bench/timing.ts'

const times = new Map([
  ['slow', [8, 10, 40]],
  ['fast', [2, 5, 4]],
])

describe('timing', () => {
  it('takes the median of the ratios round by round, with the smallest and the largest', () => {
    expect(ratioOf(times, 'slow', 'fast')).toEqual({ value: 4, low: 2, high: 10 })
  })
  it('takes the middle of an even number of rounds', () => {
    expect(millisecondsOf(new Map([['a', [1, 4, 2, 3]]]), 'a')).toBe(2.5)
  })
  it('sees that twice the work takes longer, in the same rounds', async () => {
    const work = (steps: number) => () => {
      let sum = 0
      for (let i = 0; i < steps; i++) sum += Math.sqrt(i)
      return sum
    }
    const told: number[] = []
    const measured = await takeTurns(
      [
        { name: 'once', run: work(20_000) },
        { name: 'four times', run: async () => work(80_000)() },
      ],
      { rounds: 3, warmUpMs: 40, roundMs: 20 },
      (done) => told.push(done),
    )
    expect(ratioOf(measured, 'four times', 'once').value).toBeGreaterThan(1)
    expect(told).toEqual([1, 2, 3])
  })
})
