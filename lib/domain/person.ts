import { z } from 'zod'
import { Enrolment } from './enrolment.ts'
import { Profile } from './profile.ts'
import { Usual } from './record.ts'

const { name, phone, timeZone, language } = Enrolment.shape

/** What of a person may change after enrolment: each version of it is kept. */
export const PersonDetails = z.strictObject({
  name,
  phone: phone.unwrap().unwrap().nullable(),
  timeZone,
  language: language.unwrap().unwrap().nullable(),
  interpreter: z.boolean({ error: 'accepted: true or false' }),
  usual: Usual.nullable(),
  profile: Profile.nullable(),
})
export type PersonDetails = z.infer<typeof PersonDetails>

/** A change of a person's details, and why. What is left out stays as it was; the profile is given whole. */
export const EditPatient = PersonDetails.partial().extend({
  why: z
    .string({ error: 'accepted: a reason' })
    .trim()
    .min(1, 'accepted: a reason')
    .max(500, 'accepted: at most 500 characters'),
})
export type EditPatient = z.infer<typeof EditPatient>
