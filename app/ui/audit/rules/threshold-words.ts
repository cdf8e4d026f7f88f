/** What a screen prints for each threshold, in the order of a reader: the groups, and in them the names with their words. */
export const thresholdGroups: readonly {
  group: string
  thresholds: Readonly<Record<string, string>>
}[] = [
  {
    group: 'Fever, pain, symptoms',
    thresholds: {
      feverC: 'Fever from',
      severePain: 'Severe pain from',
      risingPain: 'Rising pain from',
      risingPainStep: 'Rising pain: by at least',
      capPain: 'Cap not tolerated: pain from',
      symptomHoldHours: 'A symptom counts for, after it was stated',
    },
  },
  {
    group: 'Output down or stopped',
    thresholds: {
      declineRatio: 'Output down: below this share of usual',
      declineMinMl: 'Output down: by at least',
      stoppedHours: 'Output stopped: over at least',
      stoppedMlPer8h: 'Output stopped: at most',
      stoppedBaselineShare: 'Output stopped: not if this share of usual came',
      resolvingStoppedMl: 'Resolving drain stopped: at most',
      resolvingStoppedBaselineMl: 'Resolving drain stopped: after a usual output of at least',
      resolvingStoppedShare: 'Resolving drain stopped: after a day of at least this share',
      slowDays: 'Slow change: days looked at',
      slowMinDays: 'Slow change: days at least',
      slowReferenceDays: 'Slow change: days of reference',
      slowReferenceMinDays: 'Slow change: days of reference at least',
      slowLambda: 'Slow change: weight of the newest day',
      slowWidth: 'Slow change: width of the limit',
      slowSigmaShare: 'Slow change: least spread, as a share',
      slowSigmaMl: 'Slow change: least spread',
      slowBoundSigma: 'Slow change: outliers bounded at',
    },
  },
  {
    group: 'Output up',
    thresholds: {
      surgeMlPerHour: 'Urinary: from, an hour',
      surgeHours: 'Urinary: over at least',
      surgeMlPerDay: 'Urinary: from, a day',
      biliaryHighMl: 'Biliary: above',
      biliaryVeryHighMl: 'Biliary, within the hour: above',
      resolvingSurgeRatio: 'Resolving drain: above, times the usual',
      resolvingSurgeMinMl: 'Resolving drain: by at least',
      pleuralHighMl: 'Pleural, one drainage: above',
      pleuralVeryHighMl: 'Pleural, one drainage, within the hour: above',
    },
  },
  {
    group: 'Blood',
    thresholds: {
      pinkExpectedHours: 'Pink is expected after a new tube for',
      redExpectedHours: 'Bulb and pleural: pink or red is expected for',
    },
  },
  {
    group: 'Flushes, dressings, logs, exchange',
    thresholds: {
      flushRetainedMl: 'Flush not coming back: from',
      flushMissedIntervals: 'Flush missed: after',
      dressingGraceHours: 'Dressing overdue: after the plan by',
      logGraceHours: 'Log missed: after the plan by',
      logLateHours: 'Log missed, within 24 hours: by',
      logNeverHours: 'Never logged: after',
      logOnlyKidneyGraceHours: 'Only kidney, log missed: by',
      logOnlyKidneyLateHours: 'Only kidney, log missed, within the hour: by',
      earlyDays: 'Early days after placement',
      exchangeSoonDays: 'Exchange due: ahead by',
    },
  },
  {
    group: 'Removal',
    thresholds: {
      removalCollectionMl: 'Collection: under',
      removalCollectionDays: 'Collection: on so many days',
      removalBulbMl: 'Bulb: under',
      removalBulbDays: 'Bulb: on so many days',
      removalPleuralMl: 'Pleural: under, a drainage',
      removalPleuralReadings: 'Pleural: on so many drainages',
      removalPain: 'Not with pain from',
      removalHoldHours: 'Not after fever, chills or pain for',
      projectionDays: 'Projection: days looked at',
      projectionMinDays: 'Projection: days at least',
      projectionMostDays: 'Projection: not further ahead than',
    },
  },
  {
    group: 'Suspect readings and the usual output',
    thresholds: {
      suspectBagMultiple: 'Suspect: above, times the bag',
      ounceRatioLow: 'Ounces for millilitres: from',
      ounceRatioHigh: 'Ounces for millilitres: to',
      suspectFutureMinutes: 'Suspect: later than its receipt by',
      suspectStandsDays: 'Suspect: stands for',
      baselineMinDays: 'Usual output: days at least',
      baselineMaxDays: 'Usual output: days at most',
      completeCoverage: 'A day is complete from',
      coarseHours: 'A stretch is coarse from',
    },
  },
]

const words = new Map(thresholdGroups.flatMap(({ thresholds }) => Object.entries(thresholds)))

export const thresholdText = (name: string): string => words.get(name) ?? name

/** @example amount(38, '°C') // '38 °C' */
export const amount = (value: number, unit: string): string => `${value}${unit === '' ? '' : ` ${unit}`}`
