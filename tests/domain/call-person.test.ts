import { describe, expect, it } from 'vitest'
import { contactText, numberToCall, weighsOnCall, whomToCall } from '@/lib/domain/call-person.ts'
import { type Contact, emptyProfile } from '@/lib/domain/profile.ts'
import { page } from '../app/fixtures/page.ts'

const contact = (part: Partial<Contact> = {}): Contact => ({
  name: 'Imre Vasquez-Holm (invented)',
  relation: 'self',
  phone: '555-0142',
  email: null,
  mayCall: true,
  mayVoicemail: true,
  mayDisclose: 'everything',
  ...part,
})
const daughter = contact({
  name: 'Ana (invented)',
  relation: 'daughter',
  phone: '555-0144',
  mayVoicemail: false,
  mayDisclose: 'clinic-name',
})
const profile = (contacts: Contact[]) => ({ ...emptyProfile, contacts })

describe('whom to ask for', () => {
  it('is the patient, then the others in order, each with what may be said', () => {
    expect(whomToCall(profile([contact(), daughter]))).toBe(
      'Ask for Imre Vasquez-Holm (invented); if not there, Ana (invented) (daughter, 555-0144): may be told that the clinic calls, no voicemail.',
    )
  })
  it('leaves out who is not to be called', () => {
    expect(whomToCall(profile([contact({ mayCall: false }), daughter]))).toMatch(/^Ask for Ana/)
    expect(whomToCall(profile([contact({ mayCall: false })]))).toContain('Nobody agreed')
  })
  it('is nobody who has died', () => {
    expect(whomToCall(profile([contact(), daughter]), true)).toMatch(/^Ask for Ana/)
  })
  it('says where nobody was asked', () => {
    expect([whomToCall(null), whomToCall(profile([]))]).toEqual([
      'Whom to call besides the patient: not asked.',
      'Whom to call besides the patient: not asked.',
    ])
  })
})

describe('the number to call', () => {
  const number = (contacts: Contact[] | null, reason: 'died' | null = null) => {
    const { patient, followUp } = page()
    return numberToCall({
      patient: { ...patient, profile: contacts && profile(contacts) },
      followUp: { ...followUp, reason },
    })
  }
  it('is the first contact’s who agreed, else the chart’s', () => {
    expect(number([contact({ phone: '555-0199' }), daughter])).toBe('555-0199')
    expect(number([contact({ mayCall: false }), daughter])).toBe('555-0144')
    expect([number(null), number([])]).toEqual(['555-0142', '555-0142'])
  })
  it('is never the own one of somebody who has died', () => {
    expect(number([contact(), daughter], 'died')).toBe('555-0144')
    expect([number([contact()], 'died'), number(null, 'died')]).toEqual([null, null])
  })
})

describe('a contact', () => {
  it('with what was agreed', () => {
    expect(contactText(daughter)).toBe('daughter; 555-0144; no voicemail; may be told that the clinic calls')
    expect(contactText(contact({ phone: null }))).toBe(
      'the patient; no number noted; voicemail allowed; may be told everything',
    )
    expect(contactText({ ...daughter, mayCall: false })).toBe('daughter; not to be called')
  })
})

describe('what weighs on a call', () => {
  it('is named, and what was not asked is no no', () => {
    expect(weighsOnCall({ ...emptyProfile, anticoagulant: true, immunosuppressed: false })).toEqual([
      'Weighs on the call: takes blood thinners.',
      'Not asked: allergies.',
    ])
    expect(
      weighsOnCall({ ...emptyProfile, anticoagulant: false, immunosuppressed: true, allergies: 'latex' }),
    ).toEqual(['Weighs on the call: weakened immune system; allergies: latex.'])
    expect(weighsOnCall(null)).toEqual(['Not asked: blood thinners, immune system, allergies.'])
  })
})
