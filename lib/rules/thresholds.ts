import type { Overrides } from '../domain/record.ts'
import { RuleSet, type Threshold } from '../domain/ruleset.ts'
import type { Confidence } from '../domain/words.ts'

/*
 * Every number that the rules hold a record against: value, unit, the range in which a clinic may set
 * it, where it comes from and how firmly it stands. docs/clinical-basis.md is made from this file.
 */
type Row = [value: number, unit: string, min: number, max: number, source: string, confidence: Confidence]

const local = 'No published figure found; the clinic decides.'
const common = 'Common practice in follow-up of drains.'
const LOCAL: Confidence = 'local choice'
const COMMON: Confidence = 'common practice, no source'
const READ: Confidence = 'published'
const COPY: Confidence = 'published, secondary copy'
const MEMORY: Confidence = 'from memory'

const diuresis =
  'Post-obstructive diuresis, litfl.com: 200 mL of urine or more for at least two consecutive hours, or 3000 mL in 24 h.'
const infected =
  'Patient leaflet on biliary drains, theii.org: call at 38.0 °C. Others print 38.5 °C (Vancouver Coastal FP.490).'
const abscess =
  'Abdom Radiol 2022, 10.1007/s00261-022-03460-1: under 10 mL a day for 2 consecutive days (310 patients).'
const bulb =
  'drkoneru.com and memorialclearlake.com: under 30 mL in 24 h for two consecutive days, per drain.'
const pleuralSession = 'Common home limit of 1 L a session for a tunnelled pleural drain.'
const chart =
  'Method: EWMA chart, NIST/SEMATECH e-Handbook 6.3.2.4. Setting: chosen by measurement on simulated drains.'
const gauze = 'CDC MMWR 2002 App. B: replace when damp, loosened or soiled. Grace period: local choice.'

const rows = {
  feverC: [38, '°C', 37.5, 39, infected, READ],
  severePain: [7, 'of 10', 5, 10, 'Palos, J Pain 2006: 7 to 10 is severe.', READ],
  risingPain: [4, 'of 10', 2, 8, 'Moderate pain and above; no figure for drains found.', LOCAL],
  risingPainStep: [3, 'of 10', 1, 6, local, LOCAL],
  capPain: [4, 'of 10', 2, 8, 'Uncap for pain (leaflet compilation); the level is a local choice.', LOCAL],
  symptomHoldHours: [24, 'h', 6, 72, local, LOCAL],

  declineRatio: [0.5, 'of baseline', 0.1, 0.9, local, LOCAL],
  declineMinMl: [
    50,
    'mL',
    0,
    500,
    'Standard bags are marked to ± 50 mL (manufacturer page); the step is a local choice.',
    LOCAL,
  ],
  stoppedHours: [
    8,
    'h',
    2,
    24,
    "Between 2 h (Children's Wisconsin leaflet 1154) and 12 to 18 h (NICE NG51, total urine); local choice.",
    LOCAL,
  ],
  stoppedMlPer8h: [10, 'mL per 8 h', 0, 100, local, LOCAL],
  stoppedBaselineShare: [0.5, 'of baseline', 0.1, 0.9, local, LOCAL],
  resolvingStoppedMl: [
    10,
    'mL/day',
    0,
    100,
    'Closed-suction leaflet, Atlantic Surgical: output should decrease gradually, not abruptly. Figure: local choice.',
    LOCAL,
  ],
  resolvingStoppedBaselineMl: [50, 'mL/day', 0, 500, local, LOCAL],
  resolvingStoppedShare: [0.5, 'of baseline', 0.1, 0.9, local, LOCAL],

  surgeMlPerHour: [200, 'mL/h', 50, 1000, diuresis, READ],
  surgeHours: [2, 'h', 1, 12, diuresis, READ],
  surgeMlPerDay: [3000, 'mL/day', 1000, 10000, diuresis, READ],
  biliaryHighMl: [1000, 'mL/day', 300, 5000, 'MyHealth Alberta abq1886: up to 1 L of bile a day.', READ],
  biliaryVeryHighMl: [1500, 'mL/day', 500, 8000, common, COMMON],
  resolvingSurgeRatio: [2, '× baseline', 1.2, 10, local, LOCAL],
  resolvingSurgeMinMl: [50, 'mL', 0, 500, local, LOCAL],
  pleuralHighMl: [1000, 'mL', 300, 3000, pleuralSession, COMMON],
  pleuralVeryHighMl: [
    1500,
    'mL',
    500,
    5000,
    'BTS 2010: at most 1.5 L at the first session (via ERS abstract).',
    COPY,
  ],

  pinkExpectedHours: [
    48,
    'h',
    0,
    168,
    'North Bristol NHS: urine usually clears over the next 24 to 48 h after a change.',
    READ,
  ],
  redExpectedHours: [72, 'h', 0, 168, common, COMMON],

  slowDays: [10, 'days', 3, 30, chart, LOCAL],
  slowMinDays: [3, 'days', 2, 10, chart, LOCAL],
  slowReferenceDays: [21, 'days', 5, 60, chart, LOCAL],
  slowReferenceMinDays: [5, 'days', 3, 21, chart, LOCAL],
  slowLambda: [0.3, '', 0.05, 1, chart, LOCAL],
  slowWidth: [2.5, 'σ of the average', 1, 5, chart, LOCAL],
  slowSigmaShare: [0.25, 'of centre', 0.05, 1, chart, LOCAL],
  slowSigmaMl: [15, 'mL/day', 0, 200, chart, LOCAL],
  slowBoundSigma: [2, 'σ', 1, 10, chart, LOCAL],

  projectionDays: [14, 'days', 5, 60, local, LOCAL],
  projectionMinDays: [5, 'days', 3, 30, local, LOCAL],
  projectionMostDays: [60, 'days', 7, 365, local, LOCAL],

  flushRetainedMl: [
    10,
    'mL/day',
    0,
    200,
    'Univ. Utah IR: a retained flush makes net output negative. The size is a local choice.',
    LOCAL,
  ],
  flushMissedIntervals: [2, 'intervals', 1, 10, local, LOCAL],
  dressingGraceHours: [12, 'h', 0, 96, gauze, LOCAL],
  logGraceHours: [12, 'h', 0, 96, local, LOCAL],
  logLateHours: [36, 'h', 1, 240, local, LOCAL],
  logNeverHours: [24, 'h', 1, 168, local, LOCAL],
  logOnlyKidneyGraceHours: [4, 'h', 0, 48, local, LOCAL],
  logOnlyKidneyLateHours: [12, 'h', 1, 96, local, LOCAL],
  earlyDays: [7, 'days', 0, 60, local, LOCAL],
  exchangeSoonDays: [14, 'days', 0, 60, local, LOCAL],

  removalCollectionMl: [10, 'mL/day', 1, 50, abscess, READ],
  removalCollectionDays: [2, 'days', 1, 7, abscess, READ],
  removalBulbMl: [30, 'mL/day', 1, 100, bulb, READ],
  removalBulbDays: [2, 'days', 1, 7, bulb, READ],
  removalPleuralMl: [
    50,
    'mL',
    1,
    300,
    'Tunnelled pleural drains: under 50 mL on 3 drainages (BTS/AMPLE type).',
    MEMORY,
  ],
  removalPleuralReadings: [
    3,
    'readings',
    2,
    10,
    'Tunnelled pleural drains: under 50 mL on 3 drainages (BTS/AMPLE type).',
    MEMORY,
  ],
  removalPain: [4, 'of 10', 1, 8, local, LOCAL],
  removalHoldHours: [48, 'h', 12, 168, local, LOCAL],

  suspectBagMultiple: [2, '× capacity', 1, 10, local, LOCAL],
  ounceRatioLow: [
    24,
    '×',
    15,
    29,
    'US fl oz 29.57 mL, UK 28.41 mL (NIST definition, from memory); the margin is a local choice.',
    LOCAL,
  ],
  ounceRatioHigh: [
    36,
    '×',
    30,
    60,
    'US fl oz 29.57 mL, UK 28.41 mL (NIST definition, from memory); the margin is a local choice.',
    LOCAL,
  ],
  suspectFutureMinutes: [15, 'min', 0, 240, local, LOCAL],
  suspectStandsDays: [7, 'days', 1, 60, local, LOCAL],

  baselineMinDays: [3, 'days', 2, 7, local, LOCAL],
  baselineMaxDays: [7, 'days', 3, 30, local, LOCAL],
  completeCoverage: [0.9, 'of the day', 0.5, 1, local, LOCAL],
  coarseHours: [48, 'h', 24, 120, local, LOCAL],
} satisfies Record<string, Row>

export type ThresholdName = keyof typeof rows
/** The numbers in force for one drain or one patient. */
export type Limits = Readonly<Record<ThresholdName, number>>

const names = Object.keys(rows) as ThresholdName[]

function fromRow([value, unit, min, max, source, confidence]: Row): Threshold {
  return { value, unit, min, max, source, confidence }
}

/** The rule set that ships, with every threshold's unit, range, source and confidence. */
export const standardRuleSet: RuleSet = Object.freeze({
  version: '2026.1',
  thresholds: Object.freeze(Object.fromEntries(names.map((name) => [name, fromRow(rows[name])]))),
})

/** The thresholds that may be set for one drain, with who, when and why kept beside the order. */
export const overridable = ['declineRatio', 'stoppedHours', 'feverC', 'severePain'] as const

const accepted = (name: ThresholdName) => `accepted: ${rows[name][2]} to ${rows[name][3]} ${rows[name][1]}`

/** Faults of a drain's own thresholds: out of the stated range. Unknown names are refused by the record's shape. */
export function overrideFaults(overrides: Overrides): { name: string; value: number; message: string }[] {
  return overridable.flatMap((name) => {
    const value = overrides[name]
    const [, , min, max] = rows[name]
    return value === undefined || (value >= min && value <= max)
      ? []
      : [{ name, value, message: accepted(name) }]
  })
}

/** A rule set that cannot run, with one line per fault. */
export class RuleSetError extends Error {
  constructor(readonly faults: string[]) {
    super(`rule set: ${faults.join('; ')}`)
    this.name = 'RuleSetError'
  }
}

/**
 * Reads a rule set as `--print-rules` prints it. A threshold that is left out keeps its shipped value.
 * @throws RuleSetError naming each unknown threshold and each value out of its range
 */
export function parseRuleSet(input: unknown): RuleSet {
  const parsed = RuleSet.safeParse(input)
  if (!parsed.success)
    throw new RuleSetError(
      parsed.error.issues.map((issue) => `${issue.path.join('.') || '(whole)'}: ${issue.message}`),
    )
  const faults: string[] = []
  for (const [name, threshold] of Object.entries(parsed.data.thresholds)) {
    if (!Object.hasOwn(rows, name))
      faults.push(`thresholds.${name}: is not a threshold; accepted: ${names.join(', ')}`)
    else {
      const [, unit, min, max] = rows[name as ThresholdName]
      if (threshold.unit !== unit) faults.push(`thresholds.${name}.unit: accepted: ${unit}`)
      if (!(threshold.value >= min && threshold.value <= max))
        faults.push(`thresholds.${name}.value: ${threshold.value}; ${accepted(name as ThresholdName)}`)
    }
  }
  const value = (name: ThresholdName) => parsed.data.thresholds[name]?.value ?? rows[name][0]
  if (value('baselineMinDays') > value('baselineMaxDays'))
    faults.push(
      'thresholds.baselineMinDays.value: accepted: at most baselineMaxDays, or there is never a baseline',
    )
  if (faults.length) throw new RuleSetError(faults)
  return {
    version: parsed.data.version,
    thresholds: { ...standardRuleSet.thresholds, ...parsed.data.thresholds },
  }
}

const plain = new WeakMap<RuleSet, Limits>()

/** The numbers of a rule set, with a drain's own thresholds put in their place. */
export function limitsOf(rules: RuleSet, overrides?: Overrides): Limits {
  let limits = plain.get(rules)
  if (!limits) {
    limits = Object.fromEntries(
      names.map((name) => [name, rules.thresholds[name]?.value ?? rows[name][0]]),
    ) as Limits
    plain.set(rules, limits)
  }
  return overrides && Object.keys(overrides).length > 0 ? { ...limits, ...overrides } : limits
}
