import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { RuleSet } from './ruleset.ts'
import { FindingCode, Nature, Urgency } from './words.ts'

/** What is asked of a replay: a rule set, or the draft that holds it, over whole local days of the clinic, both ends included. */
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
  /** Times that a clinical row opened, for each day of a member of staff with a recorded call; null where there was none. */
  perNurseDay: z.strictObject({
    inForce: z.number().nullable(),
    draft: z.number().nullable(),
    nurseDays: z.number(),
  }),
  /** The same flag, but at another time or of another urgency. */
  moved: z.strictObject({ earlier: z.number(), later: z.number(), more: z.number(), less: z.number() }),
  /** Of the flags with a verdict, the share that was warranted; and what the draft would make of it. */
  predictiveValue: z.strictObject({ inForce: Estimate, draft: Estimate, change: Estimate }),
  /** Hours ahead of known events, median; and the share of events found. */
  hoursAhead: z.strictObject({ inForce: Estimate, draft: Estimate, change: Estimate }),
  eventsFound: z.strictObject({ inForce: Estimate, draft: Estimate, change: Estimate }),
})
export type ReplayPart = z.infer<typeof ReplayPart>

/** A flag with the spans in which it stood on the worklist, open where it still does. */
export const ReplayedLife = z.strictObject({
  ...ReplayedFlag.shape,
  spans: z.array(z.strictObject({ from: Instant, to: Instant.nullable() })),
})
export type ReplayedLife = z.infer<typeof ReplayedLife>

/** A patient whose flags differ. Of each list at most a dozen are kept; `count` says how many differences there are. */
export const DifferingPatient = z.strictObject({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  gained: z.array(ReplayedFlag),
  lost: z.array(ReplayedFlag),
  moved: z.array(z.strictObject({ inForce: ReplayedFlag, draft: ReplayedFlag })),
  count: z.number(),
})
export type DifferingPatient = z.infer<typeof DifferingPatient>

export const ReplayResult = z.strictObject({
  ruleSet: z.string(),
  inForce: z.array(z.string()),
  /** The whole period, and, where it was divided, the earlier and the later weeks. */
  whole: ReplayPart,
  earlier: ReplayPart.nullable(),
  later: ReplayPart.nullable(),
  /** The patients whose flags differ, at most 500, those with the most urgent differences first, and how many there are. */
  differ: z.array(DifferingPatient),
  differing: z.number(),
  /** Whether the rule set in force, replayed, gave the flags that happened; where not, how many differ, and the first few. */
  agreement: z.strictObject({ same: z.number(), different: z.number(), examples: z.array(z.string()) }),
  /** Rows of the history that could not be read, and patients who could not be replayed. */
  unreadable: z.number(),
  /** Flags that only the draft opened carry no verdict, and are in no predictive value. */
  unjudged: z.number(),
  /** What was known by then is in it, nothing later. */
  cutOff: Instant,
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

/** One patient under both rule sets, side by side: the flags that stood at some time in the period. */
export const ReplayPatient = z.strictObject({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  timeZone: TimeZone,
  drains: z.array(z.strictObject({ id: z.string(), label: z.string() })),
  from: Instant,
  until: Instant,
  /** The same flag under both; null where one of the two has none. The earliest first. */
  flags: z.array(z.strictObject({ inForce: ReplayedLife.nullable(), draft: ReplayedLife.nullable() })),
  calls: z.array(z.strictObject({ at: Instant, reached: z.boolean() })),
  reports: z.array(Instant),
})
export type ReplayPatient = z.infer<typeof ReplayPatient>
