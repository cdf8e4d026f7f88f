import { z } from 'zod'
import { Finding } from './assessment.ts'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { Contact } from './profile.ts'
import { Urgency } from './words.ts'

/** What befell an escalation: each step with who, when and why. */
export const EscalationStepKind = z.enum([
  'opened',
  /** Something more urgent has come: whoever has it is asked anew. */
  'raised',
  /** Something further has come, no more urgent: whoever has it is told once. */
  'news',
  /** A message was written to a person. */
  'told',
  /** Nobody is on call. */
  'nobody',
  /** Somebody is on call, and there is no way to tell them. */
  'no-way',
  'passed-on',
  /** The link was opened. */
  'looked',
  'have-it',
  /** 'I cannot: pass it on.' */
  'declined',
  'ended',
])
export type EscalationStepKind = z.infer<typeof EscalationStepKind>

export const EscalationStep = z.strictObject({
  at: Instant,
  kind: EscalationStepKind,
  shiftId: z.string().nullable(),
  channel: z.enum(['email', 'gateway']).nullable(),
  /** Who was told, or who acted; null: nobody in person. */
  by: z.string().nullable(),
  why: z.string().nullable(),
})
export type EscalationStep = z.infer<typeof EscalationStep>

/** An escalation with its steps, the earliest first. */
export const Escalation = z.strictObject({
  id: z.string(),
  about: z.string(),
  urgency: Urgency.exclude(['none']),
  openedAt: Instant,
  endedAt: Instant.nullable(),
  steps: z.array(EscalationStep),
})
export type Escalation = z.infer<typeof Escalation>

/** What the link of a message shows. `identity` only to the person who has said 'I have it'. */
export const OnCallView = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({ name: z.string(), phone: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  /** Whom the link was sent to. */
  you: z.string(),
  state: z.enum(['waiting', 'yours', 'others', 'over']),
  /** Who has it, since when; or why it is over. */
  says: z.string().nullable(),
  urgency: Urgency.exclude(['none']),
  about: z.string(),
  actBy: Instant.nullable(),
  openedAt: Instant,
  findings: z.array(
    Finding.pick({ code: true, says: true, urgency: true }).extend({
      /** 'Left kidney', as patient and team call the drain; null for the whole patient. */
      drain: z.string().nullable(),
      actBy: Instant,
      since: Instant,
    }),
  ),
  identity: z
    .strictObject({
      patientId: z.string(),
      name: z.string(),
      birthDate: LocalDate,
      recordNumber: z.string(),
      phone: z.string().nullable(),
      timeZone: TimeZone,
      language: z.string().nullable(),
      interpreter: z.boolean(),
      contacts: z.array(Contact),
      weighs: z.array(z.string()),
    })
    .nullable(),
})
export type OnCallView = z.infer<typeof OnCallView>

/** What is asked at the door of an on-call link; the token is the part of the link after the #. */
export const OnCallCall = z.strictObject({
  token: z.string({ error: 'accepted: the token of the link' }).min(1).max(200),
  wish: z.enum(['look', 'have-it', 'pass-on'], { error: 'accepted: look, have-it, pass-on' }),
})
export type OnCallCall = z.infer<typeof OnCallCall>
