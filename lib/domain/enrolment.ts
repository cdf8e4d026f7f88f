import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { OrderDetails } from './order-details.ts'
import { Profile } from './profile.ts'
import { Drain, Usual } from './record.ts'

/** A drain as enrolment takes it: the store gives it its id. */
export const NewDrain = Drain.omit({ id: true, removedAt: true, removalBookedFor: true }).extend({
  ...OrderDetails.shape,
  /** How patient and team tell it from another drain, in plain words: 'left kidney'. */
  label: z.string().trim().min(1, 'accepted: a plain name such as left kidney').max(60),
  /** The length mark of the tube at the skin, in cm. */
  lengthMarkCm: z.number().min(0, 'accepted: 0 to 100 cm').max(100, 'accepted: 0 to 100 cm').nullish(),
  frenchSize: z.number().min(3, 'accepted: 3 to 40 Fr').max(40, 'accepted: 3 to 40 Fr').nullish(),
})
export type NewDrain = z.infer<typeof NewDrain>

/** A patient with drains and orders, as enrolment takes it. Adults only: the rules are not made for children. */
export const Enrolment = z.strictObject({
  name: z.string().trim().min(1, 'accepted: the full name').max(200, 'accepted: at most 200 characters'),
  birthDate: LocalDate,
  recordNumber: z.string().trim().min(1, 'accepted: the record number of the chart').max(40),
  phone: z.string().trim().max(40).nullish(),
  timeZone: TimeZone,
  language: z.string().trim().max(40).nullish(),
  interpreter: z.boolean().optional(),
  enrolledAt: Instant.optional(),
  usual: Usual.nullish(),
  profile: Profile.optional(),
  /** Patients with a like name and birth date who were looked at and are somebody else. */
  notSameAs: z.array(z.string()).max(50).optional(),
  /** The entry of the list of discharges that this settles. */
  discharge: z.string().optional(),
  drains: z.array(NewDrain).min(1, 'accepted: at least one drain').max(12, 'accepted: at most 12 drains'),
})
export type Enrolment = z.infer<typeof Enrolment>
