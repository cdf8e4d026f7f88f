import { describe, expect, it } from 'vitest'
import {
  doorFaults,
  type EnrolDraft,
  enrolFaults,
  newEnrolment,
  pageLanguageFor,
  type Start,
  toEnrolment,
} from '@/app/ui/enrol/draft.ts'
import { newDrain, type Offered, suggestedLabel, withKind } from '@/app/ui/enrol/drain-draft.ts'
import { Enrolment } from '@/lib/domain/enrolment.ts'
import { standardOrders } from '@/lib/domain/standard-orders.ts'
import { DrainKind } from '@/lib/domain/words.ts'

const now = Date.parse('2026-11-24T14:34:00Z')
const zone = 'America/Denver'
const offered = Object.fromEntries(
  DrainKind.options.map((kind) => [kind, standardOrders[kind].orders]),
) as Offered
const start: Start = { zone, offered, discharge: null }
const faultsOf = (draft: EnrolDraft, alike: string[] = []) => enrolFaults(draft, zone, now, alike)
const person = (): EnrolDraft => {
  const draft = newEnrolment(start)
  return {
    ...draft,
    name: 'Ines Farrow (invented)',
    birthDate: '1985-10-22',
    recordNumber: '40-1219',
    drains: draft.drains.map((drain) => ({ ...drain, placedAt: '2026-11-20T09:00' })),
  }
}

describe('the enrolment form', () => {
  it('asks for two identifiers, and when each drain was placed', () => {
    expect(Object.keys(faultsOf(newEnrolment(start)))).toEqual([
      'name',
      'birthDate',
      'recordNumber',
      'drains[0].placedAt',
    ])
  })
  it.each(DrainKind.options)('a %s with its usual orders is accepted by the door', (kind) => {
    const draft = person()
    draft.drains = draft.drains.map((drain) => withKind(drain, kind, offered))
    expect(faultsOf(draft)).toEqual({})
    expect(Enrolment.safeParse(toEnrolment(draft, zone)).error?.issues).toBeUndefined()
  })
  it('brings all that was filled in to the door', () => {
    const draft = person()
    const [self] = draft.profile.contacts
    if (!self) throw new Error('no patient among the contacts')
    draft.profile = {
      ...draft.profile,
      contacts: [
        { ...self, phone: ' +1 555 0107 ' },
        {
          ...self,
          key: 2,
          relation: 'daughter',
          name: 'Ada',
          phone: '+1 555 0108',
          mayDisclose: 'clinic-name',
        },
      ],
      anticoagulant: 'yes',
      immunosuppressed: 'no',
      channel: 'gateway',
    }
    draft.usual = { pain: '3', general: ['dizzy'] }
    draft.drains = draft.drains.map((drain) => ({
      ...drain,
      frenchSize: '8,5',
      lengthMarkCm: '12',
      usualAppearance: 'straw',
      exchangeBookedFor: '2027-02-18T10:30',
    }))
    expect(faultsOf(draft)).toEqual({})
    const sent = toEnrolment(draft, zone)
    expect(Enrolment.parse(sent)).toMatchObject({
      phone: '+1 555 0107',
      usual: { pain: 3, general: ['dizzy'] },
      profile: {
        contacts: [
          { name: 'Ines Farrow (invented)', relation: 'self' },
          { name: 'Ada', relation: 'daughter', email: null, mayDisclose: 'clinic-name' },
        ],
        anticoagulant: true,
        immunosuppressed: false,
        thermometer: null,
      },
      drains: [
        {
          label: 'Kidney',
          frenchSize: 8.5,
          lengthMarkCm: 12,
          vessel: 'bag',
          dressingType: 'gauze and film',
          exchangeBookedFor: '2027-02-18T10:30:00-07:00',
        },
      ],
    })
  })
  it('several drains, each with its own orders', () => {
    const draft = person()
    draft.drains = [...draft.drains, { ...newDrain(2, offered, 'bulb'), side: 'right' }]
    expect(toEnrolment(draft, zone).drains.map(({ label }) => label)).toEqual(['Kidney', 'Right wound'])
  })
  it.each([
    ['half a flush order', { flushMl: '10', flushEveryHours: '' }, 'flushEveryHours'],
    ['a time of day that is none', { flushMl: '10', flushEveryHours: '12', flushAt: '9 o’clock' }, 'flushAt'],
    ['times without a flush', { flushAt: '09:00' }, 'flushAt'],
  ])('%s is marked', (_name, orders, field) => {
    const draft = person()
    draft.drains = draft.drains.map((drain) => ({ ...drain, orders: { ...drain.orders, ...orders } }))
    expect(faultsOf(draft)).toHaveProperty([`drains[0].orders.${field}`])
  })
  it('a drain placed tomorrow, and a booking that has passed, are marked', () => {
    const draft = person()
    draft.drains = draft.drains.map((drain) => ({
      ...drain,
      placedAt: '2026-11-25T09:00',
      exchangeBookedFor: '2026-11-23T09:00',
    }))
    expect(Object.keys(faultsOf(draft))).toEqual(['drains[0].placedAt', 'drains[0].exchangeBookedFor'])
  })
  it('somebody alike is a fault until it was looked at', () => {
    expect(faultsOf(person(), ['p1'])).toHaveProperty('notSameAs')
    expect(faultsOf({ ...person(), notSameAs: ['p1'] }, ['p1'])).toEqual({})
  })
  it('another kind brings its own suggestions, but not over what was changed by hand', () => {
    const drain = newDrain(1, offered)
    expect(withKind(drain, 'collection', offered).orders).toMatchObject({ flushMl: '10', flushAt: '09:00' })
    expect(withKind({ ...drain, ordersTouched: true }, 'collection', offered).orders.flushMl).toBe('')
  })
  it('an only kidney is none in a bile duct', () => {
    expect(withKind({ ...newDrain(1, offered), onlyKidney: true }, 'biliary', offered).onlyKidney).toBe(false)
  })
  it('begins with what a discharge says', () => {
    const discharge = {
      id: 'd1',
      name: 'Orla Fennimore',
      birthDate: '1959-04-03',
      recordNumber: 'D-1',
      phone: '+1 555 0133',
      drainKind: 'biliary' as const,
    }
    const draft = newEnrolment({ ...start, discharge })
    expect(toEnrolment(draft, zone)).toMatchObject({
      discharge: 'd1',
      name: 'Orla Fennimore',
      phone: '+1 555 0133',
      drains: [{ kind: 'biliary', plan: { flush: { volumeMl: 10, everyHours: 24 } } }],
    })
  })
})

it('shows what the door found where the form has it', () => {
  expect(
    doorFaults([
      { field: 'birthDate', message: 'a' },
      { field: 'drains[1].plan.flush.everyHours', message: 'b' },
      { field: 'drains[0].flushAt[1]', message: 'c' },
      { field: 'drains[0].frenchSize', message: 'd' },
      { field: 'profile.contacts[0].email', message: 'e' },
    ]),
  ).toEqual({
    birthDate: 'a',
    'drains[1].orders.flushEveryHours': 'b',
    'drains[0].orders.flushAt': 'c',
    'drains[0].frenchSize': 'd',
    'profile.contacts[0].email': 'e',
  })
})

it('names a drain as people do', () => {
  expect(suggestedLabel('nephrostomy', 'left')).toBe('Left kidney')
  expect(suggestedLabel('cholecystostomy', '')).toBe('Gallbladder')
})

it.each([
  ['Spanish', 'es'],
  ['español', 'es'],
  ['', 'en'],
  ['Arabic', 'ar'],
  ['Polish', undefined],
])('a page in the language that goes with %s', (typed, page) => expect(pageLanguageFor(typed)).toBe(page))
