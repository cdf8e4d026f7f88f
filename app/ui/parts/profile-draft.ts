import type { Language } from '@/lib/domain/languages.ts'
import { type Contact, emptyProfile, type Profile, profileFaults } from '@/lib/domain/profile.ts'
import type { Usual } from '@/lib/domain/record.ts'
import type { General } from '@/lib/domain/words.ts'
import { isWithin, numberOf } from './number-text.ts'

/** An answer that may also not have been asked for. */
export type Asked = 'yes' | 'no' | ''

export type ContactDraft = Omit<Contact, 'phone' | 'email'> & { key: number; phone: string; email: string }

/** A person's profile while it is filled in. The first contact is the patient; its name follows from the person's. */
export type ProfileDraft = {
  contacts: ContactDraft[]
  checkInLanguage: Language
  anticoagulant: Asked
  immunosuppressed: Asked
  allergies: string
  thermometer: Asked
  teachBack: Asked
  channel: Profile['reminders']['channel']
  reminderAt: string
}

const asked = (value: boolean | null): Asked => (value === null ? '' : value ? 'yes' : 'no')
const answer = (value: Asked): boolean | null => (value === '' ? null : value === 'yes')

/** A contact may be called, which is what it is for; voicemail, and words about the illness, only if agreed. */
export const newContact = (key: number, relation = ''): ContactDraft => ({
  key,
  name: '',
  relation,
  phone: '',
  email: '',
  mayCall: true,
  mayVoicemail: false,
  mayDisclose: 'call-back-only',
})

export function draftOfProfile(profile: Profile = emptyProfile): ProfileDraft {
  const contacts = profile.contacts.map((contact, i) => ({
    ...contact,
    key: i + 1,
    phone: contact.phone ?? '',
    email: contact.email ?? '',
  }))
  return {
    contacts: contacts.length > 0 ? contacts : [newContact(1, 'self')],
    checkInLanguage: profile.checkInLanguage,
    anticoagulant: asked(profile.anticoagulant),
    immunosuppressed: asked(profile.immunosuppressed),
    allergies: profile.allergies ?? '',
    thermometer: asked(profile.thermometer),
    teachBack: asked(profile.teachBack),
    channel: profile.reminders.channel,
    reminderAt: profile.reminders.at,
  }
}

/** The profile as the doors take it. */
export const toProfile = (draft: ProfileDraft, patientName: string): Profile => ({
  contacts: draft.contacts.map(({ key: _, ...contact }, i) => ({
    ...contact,
    name: i === 0 ? patientName.trim() : contact.name.trim(),
    relation: contact.relation.trim(),
    phone: contact.phone.trim() || null,
    email: contact.email.trim() || null,
  })),
  checkInLanguage: draft.checkInLanguage,
  anticoagulant: answer(draft.anticoagulant),
  immunosuppressed: answer(draft.immunosuppressed),
  allergies: draft.allergies.trim() || null,
  thermometer: answer(draft.thermometer),
  teachBack: answer(draft.teachBack),
  reminders: { channel: draft.channel, at: draft.reminderAt },
})

/** What is missing or wrong, under the doors' paths below the profile. */
export function profileDraftFaults(draft: ProfileDraft): Record<string, string> {
  const faults: Record<string, string> = {}
  draft.contacts.forEach(({ name, relation, phone, email }, i) => {
    const at = `contacts[${i}]`
    if (email.trim() && !/^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(email.trim()))
      faults[`${at}.email`] = 'An e-mail address.'
    if (i === 0) return
    if (!name.trim()) faults[`${at}.name`] = 'A name.'
    if (!relation.trim()) faults[`${at}.relation`] = 'How they are related.'
    if (!phone.trim() && !email.trim()) faults[`${at}.phone`] = 'A number, or an e-mail address.'
  })
  if (draft.channel !== 'none' && !/^([01]\d|2[0-3]):[0-5]\d$/.test(draft.reminderAt))
    faults['reminders.at'] = 'A time of day.'
  for (const { field } of profileFaults(toProfile(draft, 'the patient')))
    if (field === 'reminders.channel') faults[field] = 'Needs the patient’s own address or number, above.'
  return faults
}

/** The contacts with one of them moved by so many places. The patient stays the first. */
export function movedContact(contacts: readonly ContactDraft[], at: number, by: number): ContactDraft[] {
  const to = at + by
  const moved = [...contacts]
  const [one] = moved.splice(at, 1)
  if (!one || at < 1 || to < 1 || to >= contacts.length) return [...contacts]
  moved.splice(to, 0, one)
  return moved
}

/** What is usual for a person while it is filled in. */
export type UsualDraft = { pain: string; general: General[] }

export const draftOfUsual = (usual: Usual | null = null): UsualDraft => ({
  pain: usual?.pain == null ? '' : String(usual.pain),
  general: usual?.general ?? [],
})

/** Null where nothing was said. */
export function toUsual({ pain, general }: UsualDraft): Usual | null {
  const value = numberOf(pain)
  if (value === null && general.length === 0) return null
  return { pain: value, general }
}

export const usualFaults = ({ pain }: UsualDraft): Record<string, string> =>
  isWithin(pain, 0, 10) ? {} : { pain: 'From 0 to 10, or empty.' }
