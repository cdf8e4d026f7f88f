import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { Confidence } from './words.ts'

/** What is counted in an audit. Any of them can be the one that a clinic judges itself by. */
export const FigureName = z.enum(
  [
    'predictive-value',
    'sensitivity',
    'missed-days',
    'agreement',
    'flags-per-1000-days',
    'events-per-1000-days',
    'openings-per-nurse-day',
    'pressing-share',
    'flutter-share',
    'repeats-per-patient',
    'overdue-share',
    'time-to-attempt',
    'time-to-reached',
    'closed-within-a-minute',
    'overrides',
    'dislodgement-rate',
    'obstruction-rate',
    'infection-rate',
    'bleeding-rate',
    'log-adherence',
  ],
  { error: 'accepted: the name of a figure' },
)
export type FigureName = z.infer<typeof FigureName>

/** `share`: 0 to 1. `per-1000-days`: per 1,000 catheter-days. `hours`, `per-nurse-day`, `per-patient` as they say. */
export const FigureUnit = z.enum(['share', 'per-1000-days', 'per-nurse-day', 'per-patient', 'hours'])
export type FigureUnit = z.infer<typeof FigureUnit>

/** Of how many it is too few for a percentage or a rate: then the counts stand alone (local choice). */
export const FEW = 5

/**
 * A number with what it is made of. `value` is null where the counts are too few (`FEW`) or the data do not carry one: then
 * `why` says so, in a sentence. `low` and `high` are the ends of the 95% interval, null where there is none.
 * `numerator` and `denominator` are what was counted, before any weighting.
 */
const Amount = {
  value: z.number().nullable(),
  low: z.number().nullable(),
  high: z.number().nullable(),
  numerator: z.number(),
  denominator: z.number(),
  why: z.string().nullable(),
}

/** One week of a figure, by its Monday in the clinic's zone; `lower` and `upper` are the chart's limits of that week. */
export const FigureWeek = z.strictObject({
  week: LocalDate,
  numerator: z.number(),
  denominator: z.number(),
  value: z.number().nullable(),
  lower: z.number().nullable(),
  upper: z.number().nullable(),
})
export type FigureWeek = z.infer<typeof FigureWeek>

/** How the weeks are charted: a control chart of rates, or a run chart about the median. `signals` says in words what is not chance. */
export const FigureChart = z.strictObject({
  kind: z.enum(['u-chart', 'run-chart']),
  centre: z.number().nullable(),
  signals: z.array(z.string()),
})
export type FigureChart = z.infer<typeof FigureChart>

/** What was published of the same thing elsewhere: to stand beside, not to be met. */
export const PublishedValue = z.strictObject({ text: z.string(), source: z.string(), confidence: Confidence })
export type PublishedValue = z.infer<typeof PublishedValue>

/** A figure's part: of one finding, urgency or kind of drain. */
export const FigurePart = z.strictObject({
  key: z.string(),
  label: z.string(),
  ...Amount,
  published: z.array(PublishedValue),
})
export type FigurePart = z.infer<typeof FigurePart>

export const FigureGroup = z.enum(['trust', 'waiting', 'load', 'outcome'])
export type FigureGroup = z.infer<typeof FigureGroup>

export const Figure = z.strictObject({
  name: FigureName,
  group: FigureGroup,
  label: z.string(),
  unit: FigureUnit,
  ...Amount,
  /** What numerator and denominator count, in words. */
  counts: z.strictObject({ numerator: z.string(), denominator: z.string() }),
  method: z.string(),
  doesNotSay: z.string(),
  /** What belongs beside it, such as the days of silence: a label and what it is, ready to print. */
  beside: z.array(z.strictObject({ label: z.string(), text: z.string() })),
  published: z.array(PublishedValue),
  weekly: z.array(FigureWeek),
  chart: FigureChart,
  parts: z.array(FigurePart),
  /** The ids of the patients behind it, those in the numerator first. */
  patients: z.array(z.string()),
  /** How many of them lead the list because they are in the numerator. */
  counted: z.number(),
})
export type Figure = z.infer<typeof Figure>

export const Figures = z.array(Figure)
export type Figures = z.infer<typeof Figures>

/** Whole local days of the clinic, from the first up to, not with, the last. */
export const Period = z.strictObject({ from: LocalDate, until: LocalDate })
export type Period = z.infer<typeof Period>

/** Which figure a clinic judges itself by, named beforehand: in force for the weeks that begin after it was named. */
export const NamedPrimary = z.strictObject({
  figure: FigureName,
  at: Instant,
  by: z.string(),
  why: z.string(),
  /** The Monday of the first week that it holds for. */
  from: LocalDate,
})
export type NamedPrimary = z.infer<typeof NamedPrimary>

export const NewPrimary = z.strictObject({
  figure: FigureName,
  why: z
    .string({ error: 'accepted: why this one' })
    .trim()
    .min(1, 'accepted: why this one')
    .max(500, 'accepted: at most 500 characters'),
})
export type NewPrimary = z.infer<typeof NewPrimary>

/** A figure as its screen reads it: how many patients stand behind it; who they are is asked for, and recorded. */
export const ShownFigure = Figure.omit({ patients: true }).extend({ patients: z.number() })
export type ShownFigure = z.infer<typeof ShownFigure>

export const FiguresPage = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({ name: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  ...Period.shape,
  /** In force on the last week of the period, and the one that is named for later, if any. */
  primary: NamedPrimary.nullable(),
  next: NamedPrimary.nullable(),
  figures: z.array(ShownFigure),
  /** Rows that could not be read, and so are in no figure. */
  unreadable: z.number(),
})
export type FiguresPage = z.infer<typeof FiguresPage>

/** The patients behind a figure, at most so many; `all` says how many there are. */
export const PatientsBehind = z.strictObject({
  figure: FigureName,
  ...Period.shape,
  all: z.number(),
  patients: z.array(
    z.strictObject({
      patientId: z.string(),
      name: z.string(),
      birthDate: LocalDate,
      recordNumber: z.string(),
      /** Whether the patient is in the numerator. */
      isCounted: z.boolean(),
    }),
  ),
})
export type PatientsBehind = z.infer<typeof PatientsBehind>
