import { z } from 'zod'
import { intervalText, unitText } from './figure-text.ts'
import { Figure, type FigureUnit, NamedPrimary } from './figures.ts'
import { Instant, LocalDate } from './instant.ts'
import { Harm, Verdict } from './review.ts'
import { RuleSetName } from './rule-draft.ts'

/** A figure as minutes keep it: what it is made of, without the patients behind it. */
export const MinutesFigure = Figure.pick({
  name: true,
  label: true,
  unit: true,
  value: true,
  low: true,
  high: true,
  numerator: true,
  denominator: true,
  why: true,
  counts: true,
  doesNotSay: true,
})
export type MinutesFigure = z.infer<typeof MinutesFigure>

const verdictCounts = z.record(Verdict, z.number())

/** How the readings of a week stand. `lines`: the verdicts that hold, by what was flagged; days on which nothing was are one line. */
export const MinutesVerdicts = z.strictObject({
  items: z.number(),
  unread: z.number(),
  awaitSecond: z.number(),
  disagreed: z.number(),
  settled: z.number(),
  lines: z.array(z.strictObject({ label: z.string(), ...{ counts: verdictCounts } })),
  harm: z.record(Harm, z.number()),
})
export type MinutesVerdicts = z.infer<typeof MinutesVerdicts>

/** What is signed of a week, as it was known at the cut-off. It names no patient. */
export const MinutesContent = z.strictObject({
  week: LocalDate,
  from: Instant,
  until: Instant,
  /** The data's cut-off. */
  cutOff: Instant,
  clinic: z.strictObject({ name: z.string(), timeZone: z.string(), demo: z.boolean() }),
  /** In force at the cut-off, and those in force at any time of the week. */
  ruleSet: RuleSetName,
  ruleSets: z.array(z.strictObject({ ...RuleSetName.shape, from: Instant.nullable() })),
  /** The figure that was named beforehand for this week, if any; what was signed before minutes said so has none. */
  primary: NamedPrimary.nullish(),
  figures: z.array(MinutesFigure),
  verdicts: MinutesVerdicts,
})
export type MinutesContent = z.infer<typeof MinutesContent>

/** Minutes as they were signed. A later change is an amendment, which names the minutes that it amends, and why. */
export const SignedMinutes = z.strictObject({
  content: MinutesContent,
  decisions: z.string(),
  /** Why it was signed before every item had a first verdict; null where every item had one. */
  unreadWhy: z.string().nullable(),
  amends: z.string().nullable(),
  why: z.string().nullable(),
  signedBy: z.strictObject({ id: z.string(), name: z.string() }),
  signedAt: Instant,
})
export type SignedMinutes = z.infer<typeof SignedMinutes>

const WHY = 'accepted: why, in 1 to 500 characters'
const Why = z.string({ error: WHY }).trim().min(1, WHY).max(500, WHY)
const DECISIONS = 'accepted: at most 4000 characters'

/** Signs the minutes as they were read: their cut-off, and the hash of what stood on the page. */
export const NewMinutes = z.strictObject({
  cutOff: Instant,
  seen: z.string({ error: 'accepted: the hash of the minutes as they were read' }),
  decisions: z.string({ error: DECISIONS }).trim().max(4000, DECISIONS),
  unreadWhy: Why.nullish(),
  /** Of an amendment: the minutes that it amends, which must be the newest, and why. */
  amends: z.string().nullish(),
  why: Why.nullish(),
})
export type NewMinutes = z.infer<typeof NewMinutes>

/** `isWhole`: the hash still fits what was signed. `minutes` is null where it cannot be read. */
export const KeptMinutes = z.strictObject({
  id: z.string(),
  hash: z.string(),
  isWhole: z.boolean(),
  minutes: SignedMinutes.nullable(),
})
export type KeptMinutes = z.infer<typeof KeptMinutes>

export const MinutesPage = z.strictObject({
  asOf: Instant,
  clinic: MinutesContent.shape.clinic,
  week: LocalDate,
  isOver: z.boolean(),
  /** As it stands now, and its hash. */
  now: MinutesContent,
  hash: z.string(),
  /** The newest first. */
  signed: z.array(KeptMinutes),
})
export type MinutesPage = z.infer<typeof MinutesPage>

/** What stands behind a value of each unit. */
const behind: Readonly<Record<FigureUnit, string>> = {
  share: '',
  'per-1000-days': ' per 1,000 catheter-days',
  'per-nurse-day': ' a nurse-day',
  'per-patient': ' a patient',
  hours: '',
}

/** @example figureText(figure) // '62% (95% interval 41% to 79%)' */
export function figureText(figure: MinutesFigure): string {
  const { unit, value, why } = figure
  if (value === null) return why ?? 'Not known.'
  const interval = intervalText(figure, unit)
  return `${unitText(value, unit)}${behind[unit]}${interval === null ? '' : ` (95% interval ${interval})`}`
}

/** @example countsText(figure) // '13 flags judged warranted of 21 flags read and judged' */
export const countsText = ({ numerator, denominator, counts }: MinutesFigure): string =>
  `${tenth(numerator)} ${counts.numerator} of ${tenth(denominator)} ${counts.denominator}`
const tenth = (value: number) => String(Math.round(value * 10) / 10)

/** What is still open of a week's readings, one sentence each. */
export function openText({ items, unread, awaitSecond, disagreed }: MinutesVerdicts): string[] {
  return [
    ...(items === 0 ? ['Nothing was drawn to be read of this week.'] : []),
    ...(unread > 0 ? [`${unread} of ${items} items have no first verdict.`] : []),
    ...(awaitSecond > 0
      ? [`${awaitSecond} items await their second reading; they are in no count below.`]
      : []),
    ...(disagreed > 0
      ? [`${disagreed} items were read with two verdicts and are not settled; they are in no count below.`]
      : []),
  ]
}

/** Whether minutes can only be signed with a reason: something has no first verdict, or nothing was drawn. */
export const needsReason = ({ items, unread }: MinutesVerdicts): boolean => items === 0 || unread > 0
