import type { Assessment, Finding } from '../../lib/domain/assessment.ts'
import type {
  Drain,
  DrainSymptoms,
  Dressing,
  Flush,
  PatientRecord,
  Reading,
  Report,
  StaffEvent,
  Symptoms,
} from '../../lib/domain/record.ts'
import type { RuleSet } from '../../lib/domain/ruleset.ts'
import type { FindingCode, StaffEventType, Urgency } from '../../lib/domain/words.ts'
import { assess } from '../../lib/rules/assess.ts'
import { prepare } from '../../lib/rules/series/prepare.ts'
import { type DrainView, View } from '../../lib/rules/series/view.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'

/*
 * Records in one line each, for tests of single rules. Times are hours from START, a local midnight in a zone
 * without clock changes: hour 24 is the next midnight, and a reading then ends exactly one local day. The drain d1
 * was placed, and the patient enrolled, at hour 0; a report is received in the moment of which it tells. The orders
 * of the drain are so wide that upkeep stays silent unless a test sets them.
 */

const HOUR = 3_600_000
/** Monday 2 March 2026, 00:00. */
export const START = Date.parse('2026-03-02T00:00:00Z')

/** The instant so many hours after START. */
export const at = (hours: number): string => new Date(START + hours * HOUR).toISOString()

/** A time as hours from START. */
export const hoursOf = (instant: string): number => (Date.parse(instant) - START) / HOUR

/** The same value, frozen to its depth: a rule that changes its input throws. */
export function frozen<T>(value: T): T {
  if (value && typeof value === 'object' && !Object.isFrozen(value)) {
    Object.freeze(value)
    for (const part of Object.values(value)) frozen(part)
  }
  return value
}

export type DrainOverrides = Partial<Omit<Drain, 'plan'>> & { plan?: Partial<Drain['plan']> }

export function drain(overrides: DrainOverrides = {}): Drain {
  const { plan, ...rest } = overrides
  return {
    id: 'd1',
    kind: 'nephrostomy',
    placedAt: at(0),
    ...rest,
    plan: { logEveryHours: 8784, dressingEveryHours: 8784, flush: null, exchangeEveryDays: null, ...plan },
  }
}

/** What may differ from the usual: the drain, the time of receipt (hours), the report's id, what it corrects. */
export interface Told {
  of?: string
  received?: number
  id?: string
  supersedes?: string
}

let reports = 0

function report(hours: number, { received = hours, id, supersedes }: Told, parts: Partial<Report>): Report {
  reports += 1
  return {
    id: id ?? `r${reports}`,
    receivedAt: at(received),
    ...parts,
    ...(supersedes ? { supersedes } : {}),
  }
}

/** One measured volume in mL; null is 'could not measure'. */
export function reading(hours: number, volumeMl: number | null, told: Told & Partial<Reading> = {}): Report {
  const { appearance, total } = told
  return report(hours, told, {
    readings: [{ drain: told.of ?? 'd1', at: at(hours), volumeMl, appearance, total }],
  })
}

/** Readings at midnight, each of one whole local day, from day `from` (0 is the day of START) on. */
export const days = (volumes: readonly (number | null)[], from = 0, told: Told = {}): Report[] =>
  volumes.map((ml, i) => reading(24 * (from + i + 1), ml, told))

export const flush = (hours: number, volumeMl: number | null, told: Told & Partial<Flush> = {}): Report =>
  report(hours, told, { flushes: [{ drain: told.of ?? 'd1', at: at(hours), volumeMl, ease: told.ease }] })

export const dressing = (hours: number, what: Partial<Dressing>, told: Told = {}): Report =>
  report(hours, told, { dressings: [{ drain: told.of ?? 'd1', at: at(hours), ...what }] })

/** What the patient feels: temperature, chills, pain, general symptoms. */
export const symptoms = (hours: number, what: Omit<Symptoms, 'at'>, told: Told = {}): Report =>
  report(hours, told, { symptoms: { at: at(hours), ...what } })

/** What the patient sees of one drain: position, leak, draining. */
export const state = (hours: number, what: Omit<DrainSymptoms, 'drain'>, told: Told = {}): Report =>
  symptoms(hours, { drains: [{ drain: told.of ?? 'd1', ...what }] }, told)

export const event = (hours: number, type: StaffEventType, of: string | null = 'd1'): StaffEvent => ({
  at: at(hours),
  type,
  drain: of,
})

export const closed = (hours: number, code: FindingCode, of: string | null = 'd1'): StaffEvent => ({
  ...event(hours, 'flag-closed', of),
  code,
})

/** A record of the drain d1 as ordered, or of several drains, with these reports and staff events. */
export function record(
  order: DrainOverrides | Drain[],
  told: Report[] = [],
  events: StaffEvent[] = [],
  rest: Partial<PatientRecord> = {},
): PatientRecord {
  return frozen({
    timeZone: 'Etc/UTC',
    enrolledAt: at(0),
    drains: Array.isArray(order) ? order : [drain(order)],
    reports: told,
    staffEvents: events,
    ...rest,
  })
}

export const judged = (of: PatientRecord, hours: number, rules: RuleSet = standardRuleSet): Assessment =>
  assess(of, rules, at(hours))

/** The finding of a code and drain (null: of the whole patient) at an hour. */
export const finding = (
  code: FindingCode,
  of: PatientRecord,
  hours: number,
  drainId: string | null = 'd1',
): Finding | undefined => judged(of, hours).findings.find((f) => f.code === code && f.drain === drainId)

/** Its urgency, 'none' where it is not found. */
export const urgency = (
  code: FindingCode,
  of: PatientRecord,
  hours: number,
  drainId: string | null = 'd1',
): Urgency => finding(code, of, hours, drainId)?.urgency ?? 'none'

/** Since when and by when, in hours from START. */
export function times(found: Finding | undefined): { since: number; actBy: number } | null {
  return found ? { since: hoursOf(found.since), actBy: hoursOf(found.actBy) } : null
}

/** The first drain of a record as it was known at an hour. */
export function drainView(of: PatientRecord, hours: number, rules: RuleSet = standardRuleSet): DrainView {
  const now = START + hours * HOUR
  return new View(prepare(of, rules, now), now).drains[0] as DrainView
}

/** The shipped rule set with some values of its own. */
export const rulesWith = (values: Record<string, number>): RuleSet => ({
  version: 'test',
  thresholds: {
    ...standardRuleSet.thresholds,
    ...Object.fromEntries(
      Object.entries(values).map(([name, value]) => {
        const row = standardRuleSet.thresholds[name]
        if (!row) throw new Error(`${name} is no threshold`)
        return [name, { ...row, value }]
      }),
    ),
  },
})
