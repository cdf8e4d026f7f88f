import { describe, expect, it } from 'vitest'
import type { Report } from '../../../lib/domain/record.ts'
import { chills, fevers, generals, lowestLimit } from '../../../lib/rules/series/statements.ts'
import { at, drain, drainView, record, START, symptoms } from '../../support/build.ts'

const ms = (hours: number) => START + hours * 3_600_000
const view = (told: Report[], hours: number) => drainView(record({}, told), hours).view
const fever = (told: Report[], hours: number) => fevers(view(told, hours), ms(hours), 38)
const hot = (hours: number, received = hours) => symptoms(hours, { temperatureC: 38 }, { received })
const cool = (hours: number) => symptoms(hours, { temperatureC: 37 })

describe('what counts', () => {
  it('without end while it is in the newest statement on the question: silence does not cure', () => {
    expect(fever([hot(10)], 10_000)).toMatchObject({
      lead: { value: 38 },
      until: Number.POSITIVE_INFINITY,
      next: Number.POSITIVE_INFINITY,
    })
  })
  it('for 24 h after a statement that a newer one has replaced', () => {
    const told = [hot(10), cool(12)]
    expect(fever(told, 33.999).lead?.value).toBe(38)
    expect(fever(told, 33.999).until).toBe(ms(34))
    expect(fever(told, 34).lead).toBeNull()
  })
  it('from its receipt where that is later, from its time where that is', () => {
    expect(fever([hot(10, 20), cool(21)], 43.9).until).toBe(ms(44))
    expect(fever([hot(20.2, 20), cool(21)], 30).until).toBe(ms(44.2))
  })
  it('also for a statement that arrives after a newer one', () => {
    const told = [cool(21), hot(10, 22)]
    expect(fever(told, 30).until).toBe(ms(46))
  })
  it('is not cured by a statement on another question', () => {
    expect(fever([hot(10), symptoms(40, { chills: false, pain: 0, general: [] })], 100).lead?.value).toBe(38)
  })
  it('is told newest first, with the first and the last end', () => {
    const many = fever([hot(10), hot(14), cool(15)], 20)
    expect(many.list.map((s) => s.at)).toEqual([ms(14), ms(10)])
    expect([many.next, many.until]).toEqual([ms(34), ms(38)])
    expect(many.lead?.at).toBe(ms(14))
  })
  it('is nothing where nothing was stated', () => {
    expect(fever([], 10)).toMatchObject({ list: [], lead: null })
    expect(chills(view([symptoms(3, { chills: false })], 10), ms(10)).lead).toBeNull()
  })
})

describe('generals', () => {
  it('finds a symptom in the newest list and not one that the newest list leaves out for 24 h', () => {
    const told = [symptoms(10, { general: ['dizzy', 'vomiting'] }), symptoms(12, { general: ['vomiting'] })]
    const of = view(told, 40)
    expect(generals(of, ms(33), ['dizzy']).lead?.at).toBe(ms(10))
    expect(generals(of, ms(34), ['dizzy']).lead).toBeNull()
    expect(generals(of, ms(34), ['vomiting']).lead?.at).toBe(ms(12))
  })
})

describe('lowestLimit', () => {
  const drains = [
    drain({ plan: { overrides: { feverC: 38.5, severePain: 8 } } }),
    drain({ id: 'd2', plan: { overrides: { feverC: 37.8 } }, removedAt: at(50) }),
  ]
  const limit = (hours: number, name: 'feverC' | 'severePain') =>
    lowestLimit(drainView(record(drains), hours).view, name)
  it('is the most cautious of the drains that are in', () => {
    expect([limit(10, 'feverC'), limit(10, 'severePain')]).toEqual([37.8, 7])
    expect([limit(50, 'feverC'), limit(50, 'severePain')]).toEqual([38.5, 8])
  })
  it('is that of the rule set where no drain is in', () => {
    expect(lowestLimit(drainView(record({ removedAt: at(5) }), 6).view, 'feverC')).toBe(38)
  })
})
