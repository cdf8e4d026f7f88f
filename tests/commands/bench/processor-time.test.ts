import { expect, it } from 'vitest'
import { processorMs } from '../../../lib/commands/bench/processor-time.ts'

it('grows with work', () => {
  const before = processorMs()
  let sum = 0
  for (let i = 0; i < 20_000_000; i++) sum += Math.sqrt(i)
  expect(sum).toBeGreaterThan(0)
  expect(processorMs()).toBeGreaterThan(before)
})
