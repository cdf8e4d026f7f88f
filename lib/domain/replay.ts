import { z } from 'zod'
import { Instant, LocalDate } from './instant.ts'
import { RuleSet } from './ruleset.ts'
import { FindingCode, Nature, Urgency } from './words.ts'

/** What is asked of a replay: a rule set, or the draft that holds it, over whole local days of the clinic. */
export const NewReplay = z.strictObject({
  /** The id of a draft, or the rule set itself. */
  draft: z.string().nullish(),
  rules: RuleSet.nullish(),
  from: LocalDate,
  until: LocalDate,
  /** From this day on the weeks count as later ones: tuned on the earlier, shown on the later. */
  laterFrom: LocalDate.nullish(),
})
export type NewReplay = z.infer<typeof NewReplay>

export const ReplayState = z.enum(['waiting', 'running', 'done', 'failed', 'cancelled'])
export type ReplayState = z.infer<typeof ReplayState>

/** A number with its 95% interval, where the data carry one; `n` says of how many. */
export const Estimate = z.strictObject({
  value: z.number().nullable(),
  low: z.number().nullable(),
  high: z.number().nullable(),
  n: z.number(),
})
export type Estimate = z.infer<typeof Estimate>

/** One flag as it opened, or would have. */
export const ReplayedFlag = z.strictObject({
  code: FindingCode,
  drain: z.string().nullable(),
  nature: Nature,
  urgency: Urgency.exclude(['none']),
  openedAt: Instant,
  endedAt: Instant.nullable(),
  says: z.string(),
})
export type ReplayedFlag = z.infer<typeof ReplayedFlag>

const Counts = z.strictObject({
  inForce: z.number(),
  draft: z.number(),
  gained: z.number(),
  lost: z.number(),
})

/** What differs between the rule set in force and the draft, over one part of the period. */
export const ReplayPart = z.strictObject({
  from: LocalDate,
  until: LocalDate,
  patients: z.number(),
  patientDays: z.number(),
  flags: Counts,
  byCode: z.array(z.strictObject({ code: FindingCode, ...Counts.shape })),
  byUrgency: z.array(z.strictObject({ urgency: Urgency.exclude(['none']), ...Counts.shape })),
  /** Clinical rows a nurse's day, as the clinic's staffing makes of it. */
  perNurseDay: z.strictObject({ inForce: z.number(), draft: z.number() }),
  /** Of the flags with a verdict, the share that was warranted; and what the draft would make of it. */
  predictiveValue: z.strictObject({ inForce: Estimate, draft: Estimate, change: Estimate }),
  /** Hours ahead of known events, median; and the share of events found. */
  hoursAhead: z.strictObject({ inForce: Estimate, draft: Estimate, change: Estimate }),
  eventsFound: z.strictObject({ inForce: Estimate, draft: Estimate, change: Estimate }),
})
export type ReplayPart = z.infer<typeof ReplayPart>

export const ReplayResult = z.strictObject({
  ruleSet: z.string(),
  inForce: z.array(z.string()),
  /** The whole period, and, where it was divided, the earlier and the later weeks. */
  whole: ReplayPart,
  earlier: ReplayPart.nullable(),
  later: ReplayPart.nullable(),
  /** The patients whose flags differ, at most 500, and how many there are. */
  differ: z.array(
    z.strictObject({
      patientId: z.string(),
      name: z.string(),
      recordNumber: z.string(),
      gained: z.array(ReplayedFlag),
      lost: z.array(ReplayedFlag),
    }),
  ),
  differing: z.number(),
  /** Whether the rule set in force, replayed, gave the flags that happened; where not, how many differ, and the first few. */
  agreement: z.strictObject({ same: z.number(), different: z.number(), examples: z.array(z.string()) }),
  unreadable: z.number(),
  seconds: z.number(),
})
export type ReplayResult = z.infer<typeof ReplayResult>

export const Replay = z.strictObject({
  id: z.string(),
  draft: z.string().nullable(),
  rules: RuleSet,
  from: LocalDate,
  until: LocalDate,
  laterFrom: LocalDate.nullable(),
  state: ReplayState,
  done: z.number(),
  total: z.number(),
  by: z.string(),
  at: Instant,
  endedAt: Instant.nullable(),
  result: ReplayResult.nullable(),
  trouble: z.string().nullable(),
})
export type Replay = z.infer<typeof Replay>
