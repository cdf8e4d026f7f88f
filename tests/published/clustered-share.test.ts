import { expect, it } from 'vitest'
import { ratioByCluster } from '../../lib/audit/statistics/ratio-by-cluster.ts'

/**
 * Rats alive after 21 days of those alive after 4, by litter: Weil 1970, table 1 of Rao and Scott, Biometrics 1992;48:577. The litters: from
 * memory. The design effects: R package PF, manual of rsb: control 1.232495, treated 3.952861. Confidence: published, secondary copy.
 */
it.each([
  ['control', '13/13 12/12 9/9 9/9 8/8 8/8 12/13 11/12 9/10 9/10 8/9 11/13 4/5 5/7 7/10 7/10', 1.232495],
  ['treated', '12/12 11/11 10/10 9/9 10/11 9/10 9/10 8/9 8/9 4/5 7/9 4/7 5/10 3/6 3/10 0/7', 3.952861],
])('gives the design effect of the litters: %s', (_, litters, published) => {
  const shares = litters.split(' ').map((litter) => {
    const [n = 0, d = 0] = litter.split('/').map(Number)
    return { n, d }
  })
  const { value = 0, se } = ratioByCluster(shares) ?? {}
  const pups = shares.reduce((sum, { d }) => sum + d, 0)
  expect((se ?? 0) ** 2 / ((value * (1 - value)) / pups)).toBeCloseTo(published, 6)
})
