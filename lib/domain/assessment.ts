import { z } from 'zod'
import { Instant, LocalDate } from './instant.ts'
import { Confidence, FindingCode, Nature, Urgency } from './words.ts'

/** One piece of what a finding rests on. `report` is null where no report says it: an order, a staff event, silence. */
export const Evidence = z.strictObject({
  report: z.string().nullable(),
  at: Instant,
  what: z.string(),
  value: z.union([z.number(), z.string(), z.boolean(), z.null()]),
  unit: z.string().nullable(),
})
export type Evidence = z.infer<typeof Evidence>

/** The limit that a finding was held against. */
export const Criterion = z.strictObject({
  name: z.string(),
  value: z.union([z.number(), z.string(), z.boolean()]),
  unit: z.string().nullable(),
  source: z.string(),
  confidence: Confidence,
})
export type Criterion = z.infer<typeof Criterion>

/** What a rule says now of one drain, or of the whole patient (`drain` null). */
export const Finding = z.strictObject({
  code: FindingCode,
  drain: z.string().nullable(),
  nature: Nature,
  urgency: Urgency.exclude(['none']),
  since: Instant,
  actBy: Instant,
  /** One sentence: what was reported, and what it was compared with. */
  says: z.string(),
  /** One sentence: what would end it. */
  ends: z.string(),
  evidence: z.array(Evidence),
  threshold: Criterion,
})
export type Finding = z.infer<typeof Finding>

/** One local day of one drain: net output in mL, null where nothing of the day is known; `hours` is the day's real length. */
export const Day = z.strictObject({
  date: LocalDate,
  netMl: z.number().nullable(),
  coverage: z.number(),
  hours: z.number(),
  /** True where a reading that the day rests on filled its bag: at least so much came. Left out otherwise. */
  atLeast: z.boolean().optional(),
})
export type Day = z.infer<typeof Day>

export const DrainOutput = z.strictObject({
  drain: z.string(),
  baselineMlPerDay: z.number().nullable(),
  /** What the baseline rests on: this tube's own days, the ward's figure, or not enough yet. */
  baselineFrom: z.enum(['days', 'ward', 'unknown']),
  /** Of the days that a baseline needs, how many there are. */
  baselineDays: z.number(),
  days: z.array(Day),
  /** What the rules cannot tell of this drain, in words for the reader. */
  cannotTell: z.array(z.string()),
  /** When the removal threshold is likely to be met, for a resolving drain whose data carry it. */
  projection: z
    .strictObject({ date: LocalDate, earliest: LocalDate, latest: LocalDate.nullable(), method: z.string() })
    .nullable(),
})
export type DrainOutput = z.infer<typeof DrainOutput>

/** What the rules say of one record at one instant. */
export const Assessment = z.strictObject({
  asOf: Instant,
  ruleSet: z.string(),
  urgency: Urgency,
  actBy: Instant.nullable(),
  nextCheckAt: Instant.nullable(),
  findings: z.array(Finding),
  drains: z.array(DrainOutput),
})
export type Assessment = z.infer<typeof Assessment>
