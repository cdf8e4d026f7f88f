import { z } from 'zod'
import { Instant, LocalDate } from './instant.ts'
import { Overrides } from './record.ts'
import { ReplayState } from './replay.ts'
import { Threshold } from './ruleset.ts'

/** What happened to a draft of a rule set; each step is kept. */
export const DraftStepKind = z.enum([
  'written',
  'changed',
  'proposed',
  'approved',
  'looked-again',
  'in-force',
  'withdrawn',
])
export type DraftStepKind = z.infer<typeof DraftStepKind>

/** How it stands. `written`: it can be changed; a change takes a proposal and its approval back. */
export const DraftState = z.enum(['written', 'proposed', 'approved', 'in-force', 'withdrawn'])
export type DraftState = z.infer<typeof DraftState>

const REASON = 'accepted: why, in 1 to 500 characters'
const Reason = z.string({ error: REASON }).trim().min(1, REASON).max(500, REASON)
const Values = z.record(z.string(), z.number({ error: 'accepted: a number' }), {
  error: 'accepted: per threshold its value',
})
/** The hash of the draft as it was read: what was changed since must be read again first. */
const Seen = z.string({ error: 'accepted: the hash of the draft as it was read' })

/** A draft: the thresholds that are to differ from the rule set in force, and why. */
export const NewDraft = z.strictObject({ values: Values, reason: Reason })
export type NewDraft = z.infer<typeof NewDraft>

/** One step of a draft. `rebase`: its values are put on the rule set that came into force meanwhile. */
export const DraftStep = z.discriminatedUnion(
  'step',
  [
    z.strictObject({ step: z.literal('change'), seen: Seen, values: Values, reason: Reason }),
    z.strictObject({ step: z.literal('rebase'), seen: Seen }),
    z.strictObject({
      step: z.literal('propose'),
      seen: Seen,
      /** Why there is no replay of it; asked for where none is attached. */
      withoutReplay: Reason.nullish(),
    }),
    z.strictObject({ step: z.literal('approve'), seen: Seen }),
    z.strictObject({ step: z.literal('look-again'), seen: Seen }),
    z.strictObject({
      step: z.literal('put-in-force'),
      seen: Seen,
      /** Null: now. */
      from: Instant.nullish(),
    }),
    z.strictObject({ step: z.literal('withdraw'), seen: Seen, why: Reason }),
  ],
  {
    error: 'accepted: step as one of change, rebase, propose, approve, look-again, put-in-force, withdraw',
  },
)
export type DraftStep = z.infer<typeof DraftStep>

/** Going back: the set that was in force before is put in force again at once. */
export const BackTo = z.strictObject({
  set: z.string({ error: 'accepted: the id of a rule set that was in force' }),
  why: Reason,
})
export type BackTo = z.infer<typeof BackTo>

const Person = z.strictObject({ id: z.string(), name: z.string() })

/** One threshold in three rule sets: the one that it was written against, the one in force, this one. */
export const ThresholdChange = z.strictObject({
  name: z.string(),
  unit: z.string(),
  base: z.number(),
  inForce: z.number(),
  value: z.number(),
})
export type ThresholdChange = z.infer<typeof ThresholdChange>

export const RuleSetName = z.strictObject({ version: z.string(), hash: z.string() })
export type RuleSetName = z.infer<typeof RuleSetName>

/** One coming into force, or the set that ships (`id` is then `shipped`). */
export const RuleSetInList = z.strictObject({
  id: z.string(),
  ...RuleSetName.shape,
  /** Null: from the beginning. */
  from: Instant.nullable(),
  /** Null: until now, or not yet decided. */
  until: Instant.nullable(),
  /** `passed-over`: another took its place before its moment. */
  state: z.enum(['in-force', 'waiting', 'earlier', 'passed-over']),
  takenBack: z.strictObject({ by: z.string(), at: Instant, why: z.string().nullable() }).nullable(),
  by: z.string().nullable(),
  recordedAt: Instant.nullable(),
  why: z.string().nullable(),
  draft: z.string().nullable(),
  /** What it says otherwise than the set that ships. */
  changes: z.array(z.strictObject({ name: z.string(), unit: z.string(), from: z.number(), to: z.number() })),
  /** Whether it can be gone back to: it was in force, and another is now or waits. */
  canReturn: z.boolean(),
})
export type RuleSetInList = z.infer<typeof RuleSetInList>

export const DraftInList = z.strictObject({
  id: z.string(),
  version: z.string(),
  base: z.string(),
  reason: z.string(),
  by: z.string(),
  at: Instant,
  state: DraftState,
  /** Another set than the one that it was written against stands now. */
  isStale: z.boolean(),
})
export type DraftInList = z.infer<typeof DraftInList>

/** A threshold that was set for one drain. `silences`: it raises less than the clinic's would. */
export const OwnThreshold = z.strictObject({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  drain: z.string(),
  threshold: Overrides.keyof(),
  value: z.number(),
  clinic: z.number(),
  silences: z.boolean(),
  by: z.string(),
  at: Instant,
  why: z.string(),
})
export type OwnThreshold = z.infer<typeof OwnThreshold>

const Head = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({ name: z.string(), timeZone: z.string(), demo: z.boolean() }),
})

export const NamedThreshold = z.strictObject({ name: z.string(), ...Threshold.shape, shipped: z.number() })
export type NamedThreshold = z.infer<typeof NamedThreshold>

export const RulesPage = z.strictObject({
  ...Head.shape,
  /** The newest first. */
  sets: z.array(RuleSetInList),
  drafts: z.array(DraftInList),
  /** Those that silence something first. */
  own: z.array(OwnThreshold),
  unreadable: z.array(z.string()),
})
export type RulesPage = z.infer<typeof RulesPage>

/** What a new draft begins with: the set that stands last, be it in force or waiting for its moment. */
export const DraftBeginning = z.strictObject({
  ...Head.shape,
  base: z.strictObject({ ...RuleSetName.shape, from: Instant.nullable() }),
  thresholds: z.array(NamedThreshold),
})
export type DraftBeginning = z.infer<typeof DraftBeginning>

export const AttachedReplay = z.strictObject({
  id: z.string(),
  state: ReplayState,
  from: LocalDate,
  until: LocalDate,
  at: Instant,
  /** Whether it ran the values that the draft has now. */
  isOfThis: z.boolean(),
  gained: z.number().nullable(),
  lost: z.number().nullable(),
})
export type AttachedReplay = z.infer<typeof AttachedReplay>

export const DraftPage = z.strictObject({
  ...DraftBeginning.shape,
  id: z.string(),
  ...RuleSetName.shape,
  reason: z.string(),
  state: DraftState,
  /** The set that it was written against. */
  writtenOn: z.string(),
  isStale: z.boolean(),
  changes: z.array(ThresholdChange),
  steps: z.array(
    z.strictObject({
      step: DraftStepKind,
      at: Instant,
      by: z.string(),
      why: z.string().nullable(),
      replay: z.string().nullable(),
    }),
  ),
  proposedBy: Person.nullable(),
  /** Physicians of the clinic who can sign in, besides whoever proposed it. */
  others: z.array(z.string()),
  /** Alone in the clinic: from when on whoever proposed it can look at it again. */
  lookAgainFrom: Instant.nullable(),
  replays: z.array(AttachedReplay),
  /** The local days that can be replayed; null where no report has come yet. */
  history: z.strictObject({ first: LocalDate, last: LocalDate }).nullable(),
})
export type DraftPage = z.infer<typeof DraftPage>
