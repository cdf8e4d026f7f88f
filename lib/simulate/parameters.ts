import type { DrainKind } from '../domain/words.ts'
import { assumed, given, type Hazard, type Level, type Parameter } from './parameter.ts'

/**
 * Every number of the simulator, in one place, fixed before any threshold of the rules was tuned. Figures
 * measured on simulated patients can be no better than these: docs/evaluation.md says what follows from that.
 */
const level = (
  medianMlPerDay: number,
  logSd: number,
  [lowest, highest]: readonly [number, number],
  dayCv: number,
  halfLifeDays: Level['halfLifeDays'],
  nightShare: number,
): Level => ({ medianMlPerDay, logSd, lowest, highest, dayCv, halfLifeDays, nightShare })

/** Median of all patients, its log-spread, bounds, day-to-day variation, half-life, night’s share of the day’s rate. */
export const levels: Readonly<Record<DrainKind, Parameter<Level>>> = {
  nephrostomy: given(
    level(650, 0.4, [200, 2000], 0.15, null, 0.8),
    'mL/day',
    'StatPearls 161116: 0.5 to 1.0 mL/kg/h over both kidneys; half to all of one 70 kg adult’s urine through one tube',
    'calculated',
  ),
  nephroureteral: assumed(
    level(380, 0.45, [120, 1500], 0.2, null, 0.8),
    'mL/day',
    'part of the urine passes inward',
  ),
  biliary: given(
    level(480, 0.35, [150, 1000], 0.12, null, 0.9),
    'mL/day',
    'MyHealth Alberta abq1886: up to 1 L, fairly constant from day to day; textbook 400 to 800 (from memory)',
    'published',
  ),
  cholecystostomy: assumed(
    level(220, 0.45, [80, 700], 0.18, null, 0.9),
    'mL/day',
    'part of the bile; no figure found',
  ),
  collection: assumed(
    level(90, 0.6, [25, 500], 0.22, [2.5, 6], 1),
    'mL/day',
    'set so that the mean dwell is near 14 to 18 days (abstract 628, 283 drains)',
  ),
  pleural: assumed(
    level(200, 0.5, [60, 600], 0.2, [14, 40], 1),
    'mL/day',
    'drained every second day, up to the 1 L of common practice',
  ),
  bulb: assumed(
    level(110, 0.5, [40, 350], 0.2, [2.5, 6], 1),
    'mL/day',
    'removal under 30 mL/day by about two weeks, 21 days at most (HK HAC420)',
  ),
}

/** How the panel of a clinic is made up. */
export const kindMix: Parameter<readonly (readonly [DrainKind, number])[]> = assumed(
  [
    ['nephrostomy', 34],
    ['nephroureteral', 8],
    ['biliary', 14],
    ['cholecystostomy', 10],
    ['collection', 20],
    ['pleural', 6],
    ['bulb', 8],
  ],
  '%',
  'an interventional radiology clinic’s panel; no figure found',
)

const lossByTime: Parameter<Hazard> = given(
  { by30Days: 0.108, shape: 0.57 },
  'cumulative hazard',
  'Inadvertent discontinuation of nephrostomy catheters (283 patients): 26% at 6 and 36% at 12 months, fitted; one-month figures of other series are 2.3 to 14.4%',
  'calculated',
)

export const hazards = {
  dislodged: {
    urinary: lossByTime,
    biliary: given(
      { by30Days: 0.08, shape: 0.57 },
      'cumulative hazard',
      'PMC6204498: 6.2 to 11.1% across cholecystostomy series',
      'published',
    ),
    other: assumed<Hazard>(
      { by30Days: 0.05, shape: 0.57 },
      'cumulative hazard',
      'less than in the urinary tract',
    ),
  },
  blocked: {
    urinary: given(
      { by30Days: 0.051, shape: 0.8 },
      'cumulative hazard',
      'JPMA 2013;63(7): 5% in the first month; 1.71 per 1,000 catheter-days',
      'calculated',
    ),
    biliary: assumed<Hazard>(
      { by30Days: 0.08, shape: 0.8 },
      'cumulative hazard',
      'Radiology 2019;290:722: 21.4% readmitted for the drain in 30 days, of any cause',
    ),
    other: assumed<Hazard>({ by30Days: 0.06, shape: 0.8 }, 'cumulative hazard', 'pus and fibrin'),
  },
  infected: {
    urinary: given(
      { by30Days: 0.105, shape: 0.63 },
      'cumulative hazard',
      'Bahu, J Urol 2013: 10% in the first month, 19% in 90 days (cancer)',
      'calculated',
    ),
    biliary: assumed<Hazard>(
      { by30Days: 0.15, shape: 0.63 },
      'cumulative hazard',
      'Turan 2021: cholangitis 26.3% over the whole time with a drain',
    ),
    other: assumed<Hazard>(
      { by30Days: 0.06, shape: 0.63 },
      'cumulative hazard',
      'fever beside a drained collection or wound',
    ),
  },
  bleeding: {
    urinary: given(
      { by30Days: 0.022, shape: 0.5 },
      'cumulative hazard',
      'JPMA 2013: haematoma 1.6% and bleeding 0.6% in the first month',
      'calculated',
    ),
    biliary: assumed<Hazard>({ by30Days: 0.02, shape: 0.5 }, 'cumulative hazard', 'as in the urinary tract'),
    other: assumed<Hazard>({ by30Days: 0.01, shape: 0.5 }, 'cumulative hazard', 'half of that'),
  },
  fistula: assumed<Hazard>(
    { by30Days: 0.08, shape: 1 },
    'cumulative hazard',
    'collections only; the abscess–fistula series names no rate at home',
  ),
  silence: assumed<Hazard>(
    { by30Days: 0.06, shape: 1 },
    'cumulative hazard',
    'nothing heard for days: away, in another hospital, telephone lost',
  ),
} as const

export const events = {
  gradualShare: given(0.6, 'share of blockages', 'encrustation works slowly; no figure found', 'assumed'),
  fallDays: assumed([4, 14] as const, 'days', 'from first fall to what is left'),
  gradualResidue: assumed([0.05, 0.3] as const, 'share of usual', 'what still comes past a clogged tube'),
  suddenResidue: assumed([0, 0.02] as const, 'share of usual', 'kink, clot or plug'),
  infectedWhenBlocked: assumed(0.25, 'probability', 'urinary and biliary only'),
  feverAfterBlockHours: assumed([12, 72] as const, 'hours', 'from the stop, or from half of usual, to fever'),
  leakWhenBlocked: assumed(0.35, 'probability', 'it comes past the tube instead'),
  painWhenBlocked: assumed(0.5, 'probability', 'flank or belly'),
  noticedNotDraining: assumed(0.5, 'probability', 'the patient says so when asked'),
  movedShare: assumed(0.3, 'share of dislodgements', 'pulled back but not out'),
  movedResidue: assumed([0.1, 0.7] as const, 'share of usual', 'side-holes out of the system'),
  fistulaMlPerDay: given(
    [120, 550] as const,
    'mL/day',
    'enterocutaneous fistula, low to high output',
    'published, secondary copy',
  ),
  fistulaShowsColour: assumed(0.6, 'probability', 'contents turn enteric'),
  silenceDays: assumed([4, 14] as const, 'days', 'length of a silence that nobody breaks'),
  measuresFeverC: assumed([38.1, 39.6] as const, '°C', 'peak of a fever'),
  saysOut: assumed(0.95, 'probability', 'a report while the drain is out says so'),
  saysMoved: assumed(0.7, 'probability', 'the mark on the tube is looked at'),
  reportsOutOfTurn: assumed(0.3, 'probability', 'an acute event makes the patient report at once'),
} as const

/** The patient’s or helper’s own call: whether at all, and the median hours from when it can be felt. Log-normal, log-spread 0.8. */
export const ownCall = {
  'sudden-obstruction': assumed({ probability: 0.6, medianHours: 24 }, '', 'from the stop'),
  'gradual-obstruction': assumed({ probability: 0.45, medianHours: 60 }, '', 'from when half is gone'),
  'drain-out': assumed({ probability: 0.85, medianHours: 6 }, '', 'from the loss'),
  'drain-moved': assumed({ probability: 0.5, medianHours: 30 }, '', 'from the move'),
  infection: assumed({ probability: 0.7, medianHours: 24 }, '', 'from the first fever'),
  bleeding: assumed({ probability: 0.8, medianHours: 8 }, '', 'from the first blood'),
  fistula: assumed({ probability: 0.3, medianHours: 96 }, '', 'from the rise'),
} as const
export const visitDays = assumed(
  [7, 14] as const,
  'days',
  'a visit or imaging finds what nobody called about',
)
export const fixHours = assumed(
  [2, 20] as const,
  'hours',
  'from the call to the exchange, replacement or first antibiotic dose',
)

export const reading = {
  noiseCv: given(
    0.107,
    'coefficient of variation',
    'Crit Care cc3472: within ±10% in 65% of nurse-read readings; normal errors',
    'calculated',
  ),
  lateEntry: assumed(0.06, 'probability', 'measured now, entered hours later'),
  ounces: assumed(0.003, 'probability', 'ounces typed for millilitres; leaflets warn of it'),
  digitSlip: assumed(0.002, 'probability', 'a zero too many or too few'),
  wrongTime: assumed(0.002, 'probability', 'morning for evening: an instant in the future'),
  corrected: assumed(0.4, 'probability', 'a mistyped entry is corrected within hours'),
  notMeasured: assumed(0.01, 'probability', 'spilt, or the vessel could not be read'),
  /** What becomes of the volumes of a run of slots without a report: added to the next one, entered later each on its own, or lost. */
  missed: assumed(
    { added: 0.7, separate: 0.24, lost: 0.06 },
    'share of runs of missed slots',
    'no figure found',
  ),
} as const

export const adherence = {
  panels: given(
    [0.8, 0.56, 0.39] as const,
    'share of days with a report',
    'Daly via editorial: 3.9 of 7 days (56%) over 6 months, 2.7 of 7 (39%) after a year; 80% as after surgery (J Surg Oncol 2023;127:192)',
    'published, secondary copy',
  ),
  fall: given(
    0.3,
    'of the mean, from first to last day',
    'J Surg Oncol 2023;127:192: 82, 68 and 64% over the first month',
    'calculated',
  ),
  personLogitSd: assumed(0.8, 'logit', 'spread between people'),
  clustering: assumed(0.4, 'correlation of neighbouring days', 'missed days come in runs'),
} as const

export const body = {
  temperatureC: assumed([36.8, 0.3] as const, '°C, mean and spread', 'without fever'),
  measuresTemperature: assumed(0.5, 'probability', 'a thermometer at hand'),
  answersSymptoms: assumed(0.9, 'probability', 'the questions are answered'),
  /** Days on which a patient with no event of the tube says something that a rule may react to. */
  otherFever: assumed(0.0015, 'per day', 'a cold'),
  pinkUrine: given(
    0.012,
    'per day',
    'North Cumbria: stained at times while the tube is in; the rate is our own',
    'assumed',
  ),
  smallLeak: assumed(0.003, 'per day', 'a loose connection'),
  painFlare: assumed(0.003, 'per day', 'not of the drain'),
  dizzyOrSick: assumed(0.004, 'per day', 'vomiting or dizzy'),
  redSkin: assumed(0.003, 'per day', 'plaster'),
  dryDay: assumed(0.015, 'per day', 'a day of little drinking: 40 to 70% of usual'),
} as const

export const care = {
  flushDone: assumed(0.9, 'probability', 'an ordered flush is given'),
  flushRecorded: assumed(0.92, 'probability', 'and written down in a report'),
  flushRetained: assumed(0.1, 'share', 'of a flush that stays inside a patent tube'),
  dressingDone: assumed(0.88, 'probability', 'a dressing that is due is changed that day'),
  dressingRecorded: assumed(0.93, 'probability', 'and written down'),
  dressingDirty: given(
    [0.07, 0.02, 0.01] as const,
    'probability damp, soiled, loosened',
    'no figure found',
    'assumed',
  ),
} as const
