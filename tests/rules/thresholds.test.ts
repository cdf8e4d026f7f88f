import { describe, expect, it } from 'vitest'
import { RuleSet } from '../../lib/domain/ruleset.ts'
import {
  limitsOf,
  overridable,
  overrideFaults,
  parseRuleSet,
  RuleSetError,
  standardRuleSet,
} from '../../lib/rules/thresholds.ts'
import { rulesWith } from '../support/build.ts'

const copy = (): { version: string; thresholds: Record<string, Record<string, unknown>> } =>
  JSON.parse(JSON.stringify(standardRuleSet))
function faultsOf(input: unknown): string[] {
  try {
    parseRuleSet(input)
    return []
  } catch (error) {
    if (error instanceof RuleSetError) return error.faults
    throw error
  }
}

describe('the rule set that ships', () => {
  it('is 2026.1, and has the numbers of the design', () => {
    expect(standardRuleSet.version).toBe('2026.1')
    expect(limitsOf(standardRuleSet)).toMatchObject({
      feverC: 38,
      severePain: 7,
      risingPain: 4,
      risingPainStep: 3,
      capPain: 4,
      symptomHoldHours: 24,
      declineRatio: 0.5,
      declineMinMl: 50,
      stoppedHours: 8,
      stoppedMlPer8h: 10,
      stoppedBaselineShare: 0.5,
      resolvingStoppedMl: 10,
      resolvingStoppedBaselineMl: 50,
      resolvingStoppedShare: 0.5,
      surgeMlPerHour: 200,
      surgeHours: 2,
      surgeMlPerDay: 3000,
      biliaryHighMl: 1000,
      biliaryVeryHighMl: 1500,
      resolvingSurgeRatio: 2,
      resolvingSurgeMinMl: 50,
      pleuralHighMl: 1000,
      pleuralVeryHighMl: 1500,
      pinkExpectedHours: 48,
      redExpectedHours: 72,
      flushRetainedMl: 10,
      flushMissedIntervals: 2,
      dressingGraceHours: 12,
      logGraceHours: 12,
      logLateHours: 36,
      logNeverHours: 24,
      logOnlyKidneyGraceHours: 4,
      logOnlyKidneyLateHours: 12,
      earlyDays: 7,
      exchangeSoonDays: 14,
      removalCollectionMl: 10,
      removalCollectionDays: 2,
      removalBulbMl: 30,
      removalBulbDays: 2,
      removalPleuralMl: 50,
      removalPleuralReadings: 3,
      removalPain: 4,
      removalHoldHours: 48,
      suspectBagMultiple: 2,
      ounceRatioLow: 24,
      ounceRatioHigh: 36,
      suspectFutureMinutes: 15,
      suspectStandsDays: 7,
      baselineMinDays: 3,
      baselineMaxDays: 7,
      completeCoverage: 0.9,
      coarseHours: 48,
    })
  })
  it('has each value within its range, with a source and a confidence', () => {
    expect(RuleSet.safeParse(standardRuleSet).success).toBe(true)
    for (const [name, { value, min, max, source, confidence }] of Object.entries(
      standardRuleSet.thresholds,
    )) {
      expect(value, name).toBeGreaterThanOrEqual(min)
      expect(value, name).toBeLessThanOrEqual(max)
      expect(source.length, name).toBeGreaterThan(10)
      if (source === 'No published figure found; the clinic decides.')
        expect(confidence, name).toBe('local choice')
    }
  })
  it('cannot be changed by accident', () => {
    expect(Object.isFrozen(standardRuleSet) && Object.isFrozen(standardRuleSet.thresholds)).toBe(true)
  })
})

describe('parseRuleSet', () => {
  it('takes what is printed', () => {
    expect(parseRuleSet(copy())).toEqual(standardRuleSet)
  })
  it('takes other values at the ends of their ranges, and refuses them beyond', () => {
    for (const [value, count] of [
      [37.5, 0],
      [39, 0],
      [37.4, 1],
      [39.1, 1],
    ] as const) {
      const rules = copy()
      Object.assign(rules.thresholds.feverC ?? {}, { value })
      expect(faultsOf(rules), String(value)).toHaveLength(count)
    }
  })
  it('keeps the shipped value of a threshold that is left out', () => {
    const { feverC } = copy().thresholds
    const rules = parseRuleSet({ version: 'of our own', thresholds: { feverC: { ...feverC, value: 38.3 } } })
    expect([rules.version, limitsOf(rules).feverC, limitsOf(rules).severePain]).toEqual([
      'of our own',
      38.3,
      7,
    ])
  })
  it('names every fault at once: path, value, what is accepted', () => {
    const rules = copy()
    Object.assign(rules.thresholds.feverC ?? {}, { value: 99 })
    Object.assign(rules.thresholds.stoppedHours ?? {}, { unit: 'min' })
    rules.thresholds.moonPhase = { ...rules.thresholds.feverC }
    expect(faultsOf(rules)).toEqual([
      'thresholds.feverC.value: 99; accepted: 37.5 to 39 °C',
      'thresholds.stoppedHours.unit: accepted: h',
      expect.stringMatching(/^thresholds\.moonPhase: is not a threshold; accepted: feverC, /),
    ])
  })
  it('refuses a baseline that needs more days than it takes: there would never be one', () => {
    const rules = copy()
    Object.assign(rules.thresholds.baselineMinDays ?? {}, { value: 5 })
    Object.assign(rules.thresholds.baselineMaxDays ?? {}, { value: 4 })
    expect(faultsOf(rules)).toEqual([
      expect.stringMatching(/^thresholds\.baselineMinDays\.value: accepted: at most/),
    ])
  })
  it.each(['constructor', 'toString', '__proto__'])('refuses the threshold %s', (name) => {
    const rules = JSON.parse(
      `{"version":"x","thresholds":{"${name}":{"value":1,"unit":"h","min":0,"max":2,"source":"s","confidence":"published"}}}`,
    )
    // A name of the language itself is one too many all the same.
    if (name !== '__proto__') expect(faultsOf(rules)[0]).toMatch(/is not a threshold/)
    expect(() => faultsOf(rules)).not.toThrow()
  })
  it.each([
    [null],
    [[]],
    ['2026.1'],
    [{}],
    [{ version: '', thresholds: {} }],
    [{ version: 'x', thresholds: {}, more: 1 }],
    [{ version: 'x', thresholds: { feverC: 38 } }],
  ])('refuses %j', (input) => {
    expect(faultsOf(input).length).toBeGreaterThan(0)
  })
})

describe('limitsOf', () => {
  it('puts a drain’s own thresholds in their place, and leaves the rule set as it is', () => {
    const rules = rulesWith({ declineRatio: 0.6 })
    expect(limitsOf(rules, { declineRatio: 0.4 }).declineRatio).toBe(0.4)
    expect([
      limitsOf(rules).declineRatio,
      limitsOf(rules, {}).declineRatio,
      limitsOf(standardRuleSet).declineRatio,
    ]).toEqual([0.6, 0.6, 0.5])
  })
})

describe('overrideFaults', () => {
  it('holds the four thresholds of a drain to the ranges of the rule set', () => {
    expect(overridable).toEqual(['declineRatio', 'stoppedHours', 'feverC', 'severePain'])
    expect(overrideFaults({ declineRatio: 0.1, stoppedHours: 24, feverC: 39, severePain: 5 })).toEqual([])
    expect(
      overrideFaults({ declineRatio: 0.09, stoppedHours: 24.1, feverC: 37.4, severePain: 11 }).map(
        (f) => f.name,
      ),
    ).toEqual([...overridable])
    expect(overrideFaults({ feverC: 40 })).toEqual([
      { name: 'feverC', value: 40, message: 'accepted: 37.5 to 39 °C' },
    ])
    expect(overrideFaults({})).toEqual([])
  })
})
