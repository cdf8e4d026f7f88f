import type { Language } from '../../domain/languages.ts'
import { type Contact, emptyProfile, type Profile } from '../../domain/profile.ts'

/** Whom else to call, by the patient's place in the list: every second patient has somebody. All invented. */
const OTHERS: readonly (readonly [
  relation: string,
  firstName: string,
  mayDisclose: Contact['mayDisclose'],
])[] = [
  ['daughter', 'Maren', 'everything'],
  ['husband', 'Caspar', 'everything'],
  ['neighbour', 'Winnie', 'call-back-only'],
  ['son', 'Tomas', 'clinic-name'],
  ['sister', 'Odette', 'everything'],
]
const ALLERGIES = [null, 'penicillin', null, 'latex', null, 'iodine contrast', null] as const
const FREE_NUMBERS_FROM = 60

type Who = { name: string; phone: string; language: string | null }

/** What was asked at enrolment: the same for a person whatever the instant, and not always complete. */
export function profileOf(index: number, { name, phone, language }: Who): Profile {
  const self: Contact = {
    name,
    relation: 'self',
    phone,
    email: index % 20 === 7 ? `patient${index}@larkfield.example` : null,
    mayCall: true,
    mayVoicemail: index % 3 !== 0,
    mayDisclose: 'everything',
  }
  return {
    ...emptyProfile,
    contacts: index % 2 === 0 ? [self, otherOf(index, name)] : [self],
    checkInLanguage: pageLanguage(language),
    anticoagulant: index % 11 === 3 ? null : index % 7 === 2,
    immunosuppressed: index % 11 === 3 ? null : index % 9 === 4,
    allergies: ALLERGIES[index % ALLERGIES.length] ?? null,
    thermometer: index % 8 !== 5,
    teachBack: index % 13 === 6 ? null : true,
    reminders: { channel: self.email ? 'email' : 'none', at: '09:00' },
  }
}

function otherOf(index: number, name: string): Contact {
  const [relation, firstName, mayDisclose] = OTHERS[(index / 2) % OTHERS.length] ?? [
    'friend',
    'Sam',
    'call-back-only',
  ]
  return {
    name: `${firstName} ${name.split(' ').at(-1) ?? ''}`,
    relation,
    phone: `+1 303 555 01${FREE_NUMBERS_FROM + index / 2}`,
    email: null,
    mayCall: true,
    mayVoicemail: mayDisclose === 'everything',
    mayDisclose,
  }
}

const pageLanguage = (language: string | null): Language => (language === 'Spanish' ? 'es' : 'en')
