import { z } from 'zod'
import { StandingAdmission } from './admission.ts'
import { Day } from './assessment.ts'
import { Flag } from './flag.ts'
import { EndReason } from './follow-up.ts'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { NextTry } from './next-try-said.ts'
import { OnCallState } from './on-call-state.ts'
import { Course, DrainKind, Side, Urgency } from './words.ts'

/** Who has taken a row, and until when it is theirs. Taken is not spoken to. */
export const Hold = z.strictObject({
  staffId: z.string(),
  name: z.string(),
  /** For a narrow column. */
  initials: z.string().optional(),
  until: Instant,
})
export type Hold = z.infer<typeof Hold>

export const RowDrain = z.strictObject({
  id: z.string(),
  label: z.string(),
  kind: DrainKind,
  side: Side.nullable(),
  course: Course,
  capped: z.boolean(),
  frenchSize: z.number().nullable(),
  placedAt: Instant,
  baselineMlPerDay: z.number().nullable(),
  /** The latest 14 local days, oldest first, for the small picture. */
  days: z.array(Day),
})
export type RowDrain = z.infer<typeof RowDrain>

/** One patient on the worklist. `flags` are those that stand (open or owed), the most pressing first. */
export const WorklistRow = z.strictObject({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  phone: z.string().nullable(),
  timeZone: TimeZone,
  urgency: Urgency,
  actBy: Instant.nullable(),
  since: Instant.nullable(),
  /** Past its act by: it sorts with the tier above (never into at-once), its label unchanged. */
  overdue: z.boolean(),
  /** `clinical` rows stand first; `upkeep` rows are grouped below. Of whoever is in hospital nothing is due. */
  part: z.enum(['clinical', 'in-hospital', 'upkeep']),
  /** The stay in hospital during which deadlines rest: the row has no act by then and is not overdue. */
  admission: StandingAdmission.nullable(),
  flags: z.array(Flag),
  drains: z.array(RowDrain),
  lastHeardAt: Instant.nullable(),
  lastHeardFrom: z.string().nullable(),
  hold: Hold.nullable(),
  /** Why the row stands here although no flag, or none alone, put it there: a word that came too late. */
  lookAgainWhy: z.string().nullable(),
  /** Set where follow-up has ended; such a patient stands here only for a word that came afterwards. */
  followUpEnd: EndReason.nullable(),
  /** Another row of the list has a like name and birth date. */
  nameAlert: z.boolean(),
  /** Attempts to call since the oldest standing flag opened, none of which reached anybody. */
  attempts: z.number(),
  /** What the clinic's no-answer rule says is to be tried next; null where nothing was tried in vain. */
  nextTry: NextTry.nullable(),
  /** How it stands with the person on call, while an escalation of this patient stands. */
  onCall: OnCallState.nullable(),
})
export type WorklistRow = z.infer<typeof WorklistRow>

export const Worklist = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({ id: z.string(), name: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  /** From which share of its hours on a day counts as complete, by the clinic’s rules. */
  completeFrom: z.number(),
  rows: z.array(WorklistRow),
  /** Patients in follow-up, those with nothing flagged, and those not heard for two days. */
  patients: z.number(),
  nothingFlagged: z.number(),
  notHeard: z.number(),
  /** Rows of the store that could not be read: shown, never silently left out. */
  unreadable: z.array(z.strictObject({ what: z.string(), id: z.string(), why: z.string() })),
  /** What keeps the clinic from being told of what cannot wait, one sentence each: shown in plain sight. */
  system: z.array(z.string()),
})
export type Worklist = z.infer<typeof Worklist>
