import { z } from 'zod'
import { ClockTime } from './clock-time.ts'
import { Language } from './languages.ts'

const text = (most: number) => z.string().trim().max(most, `accepted: at most ${most} characters`)
const answer = z.boolean({ error: 'accepted: true, false or null (not asked)' }).nullable()

/** What may be said to whoever answers: nothing but a request to call back, that the clinic calls, or all. */
export const MayDisclose = z.enum(['call-back-only', 'clinic-name', 'everything'], {
  error: 'accepted: call-back-only, clinic-name, everything',
})
export type MayDisclose = z.infer<typeof MayDisclose>

/** One person to call. The first of a list is the patient. */
export const Contact = z.strictObject({
  name: text(200).min(1, 'accepted: a name'),
  /** 'self' for the patient, else how they are related: 'daughter'. */
  relation: text(60).min(1, 'accepted: self, or how they are related'),
  phone: text(40).nullable(),
  email: z.email({ error: 'accepted: an e-mail address' }).nullable(),
  mayCall: z.boolean(),
  mayVoicemail: z.boolean(),
  mayDisclose: MayDisclose,
})
export type Contact = z.infer<typeof Contact>

export const Reminders = z.strictObject({
  /** `gateway`: the clinic's own text-message gateway, by the signed webhook. */
  channel: z.enum(['none', 'email', 'gateway'], { error: 'accepted: none, email, gateway' }),
  /** The patient's hour, in the patient's zone. */
  at: ClockTime,
})
export type Reminders = z.infer<typeof Reminders>

/** What of a person may change and matters to a call. Null is 'not asked', never 'no'. */
export const Profile = z.strictObject({
  contacts: z.array(Contact).max(6, 'accepted: at most 6 contacts'),
  /** The language of the check-in page, the hand-out and reminders. */
  checkInLanguage: Language,
  anticoagulant: answer,
  immunosuppressed: answer,
  allergies: text(300).nullable(),
  thermometer: answer,
  teachBack: answer,
  reminders: Reminders,
})
export type Profile = z.infer<typeof Profile>

/**
 * What no single field of a profile can tell: who the contacts are, and whether a reminder has an address.
 * Paths begin below the profile.
 */
export function profileFaults({ contacts, reminders }: Profile): { field: string; message: string }[] {
  const faults: { field: string; message: string }[] = []
  contacts.forEach(({ relation }, i) => {
    if ((relation === 'self') !== (i === 0))
      faults.push({
        field: `contacts[${i}].relation`,
        message:
          i === 0 ? 'accepted: self, the first contact is the patient' : 'accepted: how they are related',
      })
  })
  const [self] = contacts
  if (reminders.channel === 'email' && !self?.email)
    faults.push({ field: 'reminders.channel', message: 'accepted: email where the patient has an address' })
  if (reminders.channel === 'gateway' && !self?.phone)
    faults.push({ field: 'reminders.channel', message: 'accepted: gateway where the patient has a number' })
  return faults
}

export const emptyProfile: Profile = {
  contacts: [],
  checkInLanguage: 'en',
  anticoagulant: null,
  immunosuppressed: null,
  allergies: null,
  thermometer: null,
  teachBack: null,
  reminders: { channel: 'none', at: '09:00' },
}
