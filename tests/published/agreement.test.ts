import { expect, it } from 'vitest'
import { agreement } from '../../lib/audit/statistics/agreement.ts'

/** The items that a table counts, each of its own patient: rows are the first reading, columns the second. */
const itemsOf = (table: readonly (readonly number[])[]) =>
  table.flatMap((row, first) =>
    row.flatMap((count, second) =>
      Array.from({ length: count }, (_, i) => ({ first, second, cluster: `${first} ${second} ${i}` })),
    ),
  )
const agreementIn = (table: readonly (readonly number[])[]) => agreement(itemsOf(table), table.length)

it('gives the kappa of the textbook table', () => {
  // Source: the 2 × 2 table of many textbooks. Confidence: published, secondary copy.
  const found = agreementIn([
    [20, 5],
    [10, 15],
  ])
  expect(found.raw).toBeCloseTo(0.7, 12)
  expect(found.kappa?.value).toBeCloseTo(0.4, 12)
})

it('gives the error and the interval of Cohen’s kappa', () => {
  // Source: R package statpsych, manual of ci.kappa: ci.kappa(.05, 31, 12, 4, 58). Confidence: published.
  const found = agreementIn([
    [31, 12],
    [4, 58],
  ]).kappa
  expect(found?.value).toBeCloseTo(0.6756757, 7)
  expect(found?.se).toBeCloseTo(0.07344761, 7)
  expect(found?.low).toBeCloseTo(0.531721, 6)
  expect(found?.high).toBeCloseTo(0.8196303, 6)
})

it('gives kappa and AC1 of three categories', () => {
  // Source: R package irrCAC, manual of kappa2.table(cont3x3abstractors): 0.7964094 (published); the table itself and
  // gwet.ac1.table(…) 0.8493: from memory.
  const found = agreementIn([
    [13, 0, 0],
    [0, 20, 7],
    [0, 4, 56],
  ])
  expect(found.kappa?.value).toBeCloseTo(0.7964094, 7)
  expect(found.ac1).toBeCloseTo(0.8493, 4)
})
