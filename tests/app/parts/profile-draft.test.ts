import { expect, it } from 'vitest'
import {
  draftOfProfile,
  draftOfUsual,
  movedContact,
  newContact,
  profileDraftFaults,
  toProfile,
  toUsual,
} from '@/app/ui/parts/profile-draft.ts'
import { emptyProfile, Profile } from '@/lib/domain/profile.ts'

const full: Profile = {
  ...emptyProfile,
  contacts: [
    {
      name: 'Ines Farrow',
      relation: 'self',
      phone: '+1 555 0107',
      email: 'ines@example.com',
      mayCall: true,
      mayVoicemail: false,
      mayDisclose: 'everything',
    },
    {
      name: 'Ada Farrow',
      relation: 'daughter',
      phone: null,
      email: 'ada@example.com',
      mayCall: false,
      mayVoicemail: true,
      mayDisclose: 'call-back-only',
    },
  ],
  anticoagulant: true,
  thermometer: false,
  allergies: 'latex',
  reminders: { channel: 'email', at: '08:15' },
}

it('what is stored comes back unchanged from the form', () => {
  expect(toProfile(draftOfProfile(full), 'Ines Farrow')).toEqual(full)
  const begun = toProfile(draftOfProfile(), 'Ines Farrow')
  expect(Profile.parse(begun)).toEqual(begun)
  expect(begun.anticoagulant).toBeNull()
})

it('a further contact may be called and is told nothing, until more was agreed', () => {
  expect(newContact(2)).toMatchObject({ mayCall: true, mayVoicemail: false, mayDisclose: 'call-back-only' })
})

it('marks a contact without a name, relation or number, and a reminder without an address', () => {
  const draft = draftOfProfile()
  expect(
    Object.keys(
      profileDraftFaults({ ...draft, contacts: [...draft.contacts, newContact(2)], channel: 'email' }),
    ),
  ).toEqual(['contacts[1].name', 'contacts[1].relation', 'contacts[1].phone', 'reminders.channel'])
})

it('the patient stays the first to be called', () => {
  const contacts = [newContact(1, 'self'), newContact(2), newContact(3)]
  const keys = (at: number, by: number) => movedContact(contacts, at, by).map(({ key }) => key)
  expect(keys(2, -1)).toEqual([1, 3, 2])
  expect(keys(1, -1)).toEqual([1, 2, 3])
  expect(keys(0, 1)).toEqual([1, 2, 3])
})

it('nothing said of what is usual is no usual', () => {
  expect(toUsual(draftOfUsual())).toBeNull()
  expect(toUsual({ pain: '0', general: [] })).toEqual({ pain: 0, general: [] })
})
