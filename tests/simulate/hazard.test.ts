import { describe, expect, it } from 'vitest'
import { hoursToEvent } from '../../lib/simulate/hazard.ts'
import { hazards } from '../../lib/simulate/parameters.ts'
import { randomFor } from '../../lib/simulate/random.ts'

const shareWithin = (days: number, hazard: { by30Days: number; shape: number }, age = 0) => {
  const random = randomFor(5, 'hazard-test', days)
  const draws = Array.from({ length: 20_000 }, () => hoursToEvent(hazard, age, random.uniform()))
  return draws.filter((hours) => hours < days * 24).length / draws.length
}

describe('hoursToEvent', () => {
  it('is exponential at shape 1', () => {
    expect(hoursToEvent({ by30Days: 0.1, shape: 1 }, 0, 1 - Math.exp(-0.1))).toBeCloseTo(720, 6)
    expect(hoursToEvent({ by30Days: 0.1, shape: 1 }, 50, 1 - Math.exp(-0.1))).toBeCloseTo(720, 6)
  })

  it('loses 26% of nephrostomies at 6 and 36% at 12 months, as published', () => {
    expect(shareWithin(182, hazards.dislodged.urinary.value)).toBeCloseTo(0.26, 1)
    expect(shareWithin(365, hazards.dislodged.urinary.value)).toBeCloseTo(0.36, 1)
  })

  it('infects 10% in the first month and 19% in 90 days, as published', () => {
    expect(Math.abs(shareWithin(30, hazards.infected.urinary.value) - 0.1)).toBeLessThan(0.01)
    expect(Math.abs(shareWithin(90, hazards.infected.urinary.value) - 0.19)).toBeLessThan(0.015)
  })

  it('blocks 5% in the first month, as published', () => {
    expect(Math.abs(shareWithin(30, hazards.blocked.urinary.value) - 0.05)).toBeLessThan(0.01)
  })

  it('has a hazard that falls with the age of the tube', () => {
    for (const group of [hazards.dislodged, hazards.blocked, hazards.infected, hazards.bleeding])
      for (const hazard of Object.values(group))
        expect(shareWithin(10, hazard.value, 40)).toBeLessThan(shareWithin(10, hazard.value, 1))
  })

  it('never gives an event in the past', () => {
    for (const age of [0, 1, 45])
      expect(hoursToEvent({ by30Days: 0.1, shape: 0.57 }, age, 0)).toBeCloseTo(0, 6)
  })
})
