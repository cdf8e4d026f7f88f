import { expect, it } from 'vitest'
import { isToRenew } from '@/app/ui/worklist/renewal.ts'

const MIN = 60_000
it.each([
  ['just taken for 15 minutes', 15, 0, false],
  ['just taken for 5 minutes', 5, 0, false],
  ['under 2½ minutes left', 2.4, 0, true],
  ['a long call without a key', 1, 14, true],
  ['a computer that was left', 1, 15, false],
  ['run out', 0, 0, false],
  ['run out a while ago', -3, 0, false],
])('%s', (_, left, untouched, renews) => {
  expect(isToRenew(left * MIN, untouched * MIN)).toBe(renews)
})
