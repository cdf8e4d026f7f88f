import { type Fault, Refusal } from '../../domain/problem.ts'
import type { RuleSet, Threshold } from '../../domain/ruleset.ts'
import { parseRuleSet, RuleSetError, standardRuleSet } from '../../rules/thresholds.ts'

export type Values = Readonly<Record<string, number>>

const shippedOf = (name: string): Threshold | undefined =>
  Object.hasOwn(standardRuleSet.thresholds, name) ? standardRuleSet.thresholds[name] : undefined

export const rangeText = ({ min, max, unit }: Threshold): string =>
  `${min} to ${max}${unit === '' ? '' : ` ${unit}`}`

/** Pairs in which the first may not be above the second, or the more urgent of two findings would come first. */
const ORDERED: readonly (readonly [lower: string, upper: string])[] = [
  ['biliaryHighMl', 'biliaryVeryHighMl'],
  ['pleuralHighMl', 'pleuralVeryHighMl'],
  ['logGraceHours', 'logLateHours'],
  ['logOnlyKidneyGraceHours', 'logOnlyKidneyLateHours'],
  ['baselineMinDays', 'baselineMaxDays'],
  ['slowMinDays', 'slowDays'],
  ['slowReferenceMinDays', 'slowReferenceDays'],
  ['projectionMinDays', 'projectionDays'],
]

/** What is wrong with values that are to be put into a set: out of its range, said with the range and its source, or in no order. */
export function valueFaults(base: RuleSet, values: Values): Fault[] {
  const faults = Object.entries(values).flatMap(([name, value]): Fault[] => {
    const shipped = shippedOf(name)
    const field = `values.${name}`
    if (!shipped) return [{ field, value, message: 'is not a threshold' }]
    return value >= shipped.min && value <= shipped.max
      ? []
      : [{ field, value, message: `accepted: ${rangeText(shipped)}. Source: ${shipped.source}` }]
  })
  const inEither = (name: string) => values[name] ?? base.thresholds[name]?.value ?? shippedOf(name)?.value
  const crossed = ORDERED.flatMap(([lower, upper]): Fault[] => {
    const [low, high] = [inEither(lower), inEither(upper)]
    if (low === undefined || high === undefined || low <= high) return []
    const field = Object.hasOwn(values, lower) ? lower : upper
    const accepted =
      field === lower ? `at most ${upper}, which is ${high}` : `at least ${lower}, which is ${low}`
    return [{ field: `values.${field}`, value: values[field], message: `accepted: ${accepted}` }]
  })
  return [...faults, ...crossed]
}

/**
 * A rule set with other values put in. A value that is not the shipped one says that the clinic set it and why; the source
 * of the shipped value stands beside it, since it does not carry the new one.
 * @throws Refusal invalid-input: a name that is none, a value out of range, nothing that differs
 */
export function withValues(base: RuleSet, values: Values, version: string, reason: string): RuleSet {
  const faults = valueFaults(base, values)
  if (faults.length > 0) throw new Refusal('invalid-input', 'The draft is not as it is accepted.', faults)
  const changed = Object.entries(values).filter(([name, value]) => base.thresholds[name]?.value !== value)
  if (changed.length === 0)
    throw new Refusal(
      'invalid-input',
      `This draft changes nothing: every value is that of ${base.version}.`,
      [{ field: 'values', message: 'accepted: at least one value that differs' }],
    )
  const thresholds = changed.map(([name, value]) => [name, thresholdOf(name, value, reason)] as const)
  return runnable({ version, thresholds: { ...base.thresholds, ...Object.fromEntries(thresholds) } })
}

function thresholdOf(name: string, value: number, reason: string): Threshold {
  const shipped = shippedOf(name)
  if (!shipped) throw new Error(`rule set: ${name} is no threshold`)
  if (shipped.value === value) return shipped
  const ends = /[.!?]$/.test(reason) ? '' : '.'
  const unit = shipped.unit === '' ? '' : ` ${shipped.unit}`
  return {
    ...shipped,
    value,
    source: `Set by the clinic: ${reason}${ends} The shipped value is ${shipped.value}${unit}: ${shipped.source}`,
    confidence: 'local choice',
  }
}

/**
 * A stored set as the rules would run it.
 * @throws Refusal conflict, where the rules do not accept it (any more)
 */
export function runnable(body: unknown): RuleSet {
  try {
    return parseRuleSet(body)
  } catch (error) {
    if (!(error instanceof RuleSetError)) throw error
    throw new Refusal('conflict', `The rules do not accept this set: ${error.faults.join('; ')}`)
  }
}

export type Difference = { name: string; unit: string; from: number; to: number }

/** Where two sets differ in a value, in the order of the shipped set. */
export const differences = (from: RuleSet, to: RuleSet): Difference[] =>
  Object.entries(standardRuleSet.thresholds).flatMap(([name, { unit, value }]) => {
    const before = from.thresholds[name]?.value ?? value
    const after = to.thresholds[name]?.value ?? value
    return before === after ? [] : [{ name, unit, from: before, to: after }]
  })

/** The values by which a set differs from another. */
export const valuesBeyond = (base: RuleSet, set: RuleSet): Values =>
  Object.fromEntries(differences(base, set).map(({ name, to }) => [name, to]))
