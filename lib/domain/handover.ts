import { z } from 'zod'
import { Agreed, AttemptOutcome, Direction, SpokenTo } from './callback.ts'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { VisitKind } from './visit.ts'
import { FindingCode, Urgency, urgencyRank } from './words.ts'

/** Hours ahead that the next shift is shown: as far as the strip of the worklist reaches. */
export const SHIFT_HOURS = 12

const Person = z.strictObject({ id: z.string(), name: z.string() })
export type Person = z.infer<typeof Person>

const identified = {
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  phone: z.string().nullable(),
}

/** One attempt to call. */
export const HandoverTry = z.strictObject({
  at: Instant,
  by: z.string(),
  direction: Direction,
  outcome: AttemptOutcome,
  spokenTo: SpokenTo.nullable(),
  note: z.string(),
})
export type HandoverTry = z.infer<typeof HandoverTry>

/** What the last call that reached somebody agreed. */
export const HandoverAgreed = z.strictObject({
  at: Instant,
  by: z.string(),
  agreed: z.array(Agreed),
  lookAgainAt: Instant.nullable(),
  note: z.string(),
})
export type HandoverAgreed = z.infer<typeof HandoverAgreed>

/** What comes due in the next shift. */
export const HandoverDue = z.strictObject({
  at: Instant,
  what: z.union([z.literal(['act-by', 'look-again']), VisitKind]),
})
export type HandoverDue = z.infer<typeof HandoverDue>

/** One row as it is handed over. */
export const HandoverEntry = z.strictObject({
  ...identified,
  timeZone: TimeZone,
  urgency: Urgency,
  actBy: Instant.nullable(),
  overdue: z.boolean(),
  part: z.enum(['clinical', 'upkeep']),
  drains: z.array(z.string()),
  findings: z.array(
    z.strictObject({ code: FindingCode, drain: z.string().nullable(), says: z.string(), owed: z.boolean() }),
  ),
  /** Why it stands here although no flag put it there. */
  lookAgainWhy: z.string().nullable(),
  /** Attempts since the oldest flag that stands opened, and all of this shift; the latest first. */
  tried: z.array(HandoverTry),
  agreed: HandoverAgreed.nullable(),
  due: z.array(HandoverDue),
  /** Who has taken the row at this moment. */
  holder: z.string().nullable(),
  /** At once or within 1 hour: somebody must accept it by name, else it stays with the giver. */
  needs: z.boolean(),
  /** It became so pressing after the handover was opened. */
  isNew: z.boolean(),
  accepted: z.strictObject({ by: Person, at: Instant }).nullable(),
  /** Something became pressing after it was accepted: read it again. */
  newsSince: z.boolean(),
})
export type HandoverEntry = z.infer<typeof HandoverEntry>

/** Somebody who is not on the list now, and of whom something comes due in the next shift. */
export const HandoverComing = z.strictObject({ ...identified, due: z.array(HandoverDue) })
export type HandoverComing = z.infer<typeof HandoverComing>

/** A handover as it stands: opened by whoever gives it, accepted row by row, signed by both. */
export const Handover = z.strictObject({
  id: z.string(),
  openedAt: Instant,
  givenBy: Person,
  givenAt: Instant.nullable(),
  takenBy: Person.nullable(),
  takenAt: Instant.nullable(),
  note: z.string(),
})
export type Handover = z.infer<typeof Handover>

/** The page for the next shift; frozen as it stands when the second of the two signs. */
export const HandoverSheet = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({ name: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  /** The version of the rule set in force; what was signed before this was kept does not say. */
  ruleSet: z.string().optional(),
  /** Since when calls count as this shift's, and until when things count as due in the next one. */
  from: Instant,
  until: Instant,
  handover: Handover.nullable(),
  entries: z.array(HandoverEntry),
  coming: z.array(HandoverComing),
  unreadable: z.array(z.strictObject({ what: z.string(), id: z.string(), why: z.string() })),
})
export type HandoverSheet = z.infer<typeof HandoverSheet>

/** One earlier handover in the list of them. */
export const HandoverLine = z.strictObject({
  id: z.string(),
  openedAt: Instant,
  givenBy: z.string(),
  takenBy: z.string().nullable(),
  signedAt: Instant.nullable(),
  withdrawnAt: Instant.nullable(),
  withdrawnBy: z.string().nullable(),
  accepted: z.number(),
})
export type HandoverLine = z.infer<typeof HandoverLine>

export const HandoverPage = z.strictObject({ sheet: HandoverSheet, earlier: z.array(HandoverLine) })
export type HandoverPage = z.infer<typeof HandoverPage>

const note = z.string().trim().max(4000, 'accepted: at most 4000 characters')
export const NewHandover = z.strictObject({ note: note.optional() })

/** One step of an open handover. */
export const HandoverStep = z.discriminatedUnion(
  'step',
  [
    z.strictObject({ step: z.literal('note'), note }),
    z.strictObject({ step: z.literal('accept'), patientId: z.string({ error: 'accepted: a patient’s id' }) }),
    z.strictObject({ step: z.literal('sign') }),
    z.strictObject({ step: z.literal('withdraw') }),
  ],
  { error: 'accepted: note, accept, sign, withdraw' },
)
export type HandoverStep = z.infer<typeof HandoverStep>

/** Whether somebody must accept it by name. */
export const needsName = (urgency: Urgency): boolean => urgencyRank[urgency] >= urgencyRank['within-1h']

/** The rows that nobody has accepted: they stay with whoever gives. */
export const staying = (entries: readonly HandoverEntry[]): HandoverEntry[] =>
  entries.filter(({ needs, accepted }) => needs && accepted === null)
