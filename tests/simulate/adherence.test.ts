import { describe, expect, it } from 'vitest'
import { reportingDays } from '../../lib/simulate/adherence.ts'

const people = 1500
const days = 60
const panel = (mean: number) => Array.from({ length: people }, (_, seed) => reportingDays(seed, mean, days))
const share = (panel: boolean[][], from = 0, to = days) =>
  panel.reduce((sum, person) => sum + person.slice(from, to).filter(Boolean).length, 0) /
  (panel.length * (to - from))

describe('reportingDays', () => {
  for (const mean of [0.8, 0.56, 0.39])
    it(`has a mean of ${mean} over people and days`, () => {
      expect(Math.abs(share(panel(mean)) - mean)).toBeLessThan(0.025)
    })

  it('falls with time', () => {
    const people = panel(0.56)
    expect(share(people, 0, 15)).toBeGreaterThan(share(people, 45, 60) + 0.08)
  })

  it('differs between people, and misses days in runs', () => {
    const people = panel(0.56)
    const shares = people.map((person) => share([person]))
    expect(shares.filter((value) => value > 0.8).length).toBeGreaterThan(50)
    expect(shares.filter((value) => value < 0.3).length).toBeGreaterThan(50)
    let same = 0
    for (const person of people)
      for (let day = 1; day < days; day++) if (person[day] === person[day - 1]) same++
    expect(same / (people.length * (days - 1))).toBeGreaterThan(0.56 ** 2 + 0.44 ** 2 + 0.05)
  })

  it('at 1 means every day', () => {
    expect(reportingDays(3, 1, 20)).toEqual(Array(20).fill(true))
  })
})
