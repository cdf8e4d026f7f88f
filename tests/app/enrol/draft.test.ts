import { describe, expect, it } from 'vitest'
import {
  type EnrolDraft,
  enrolFaults,
  newDrain,
  newEnrolment,
  suggestedLabel,
  toEnrolment,
  withKind,
} from '@/app/ui/enrol/draft.ts'
import { usualDraft } from '@/app/ui/parts/orders-draft.ts'
import { Enrolment } from '@/lib/domain/enrolment.ts'
import { DrainKind } from '@/lib/domain/words.ts'

const now = Date.parse('2026-11-24T14:34:00Z')
const zone = 'America/Denver'
const person = (): EnrolDraft => ({
  ...newEnrolment(now, zone),
  name: 'Ines Farrow (invented)',
  birthDate: '1985-10-22',
  recordNumber: '40-1219',
})

describe('the enrolment form', () => {
  it('asks for two identifiers', () => {
    expect(Object.keys(enrolFaults(newEnrolment(now, zone)))).toEqual(['name', 'birthDate', 'recordNumber'])
  })
  it.each(DrainKind.options)('a %s with its usual orders is accepted by the door', (kind) => {
    const draft = person()
    draft.drains = draft.drains.map((drain) => withKind(drain, kind))
    expect(enrolFaults(draft)).toEqual({})
    expect(Enrolment.safeParse(toEnrolment(draft)).error?.issues).toBeUndefined()
  })
  it('several drains, each with its own orders', () => {
    const draft = person()
    draft.drains = [
      ...draft.drains,
      { ...newDrain(2, now, zone), kind: 'bulb', side: 'right', orders: usualDraft('bulb') },
    ]
    expect(toEnrolment(draft).drains.map(({ label }) => label)).toEqual(['Kidney', 'Right wound'])
  })
  it('half a flush order is marked', () => {
    const draft = person()
    draft.drains = draft.drains.map((drain) => ({
      ...drain,
      orders: { ...drain.orders, flushMl: '10', flushEveryHours: '' },
    }))
    expect(enrolFaults(draft)).toHaveProperty('drains[0].orders.flushEveryHours')
  })
  it('another kind brings its own suggestions, but not over what was changed by hand', () => {
    const drain = newDrain(1, now, zone)
    expect(withKind(drain, 'collection').orders.flushMl).toBe('10')
    expect(withKind({ ...drain, ordersTouched: true }, 'collection').orders.flushMl).toBe('')
  })
  it('an only kidney is none in a bile duct', () => {
    expect(withKind({ ...newDrain(1, now, zone), onlyKidney: true }, 'biliary').onlyKidney).toBe(false)
  })
})
it('names a drain as people do', () => {
  expect(suggestedLabel('nephrostomy', 'left')).toBe('Left kidney')
  expect(suggestedLabel('cholecystostomy', '')).toBe('Gallbladder')
})
