import fc from 'fast-check'
import type { PatientRecord } from '../../lib/domain/record.ts'
import {
  Appearance,
  DrainKind,
  DressingFound,
  Ease,
  FindingCode,
  General,
  Position,
  Skin,
  StaffEventType,
} from '../../lib/domain/words.ts'

/* Random records that hit every rule: crowded, untidy, with corrections, late and wrongly dated entries. */

const HOUR = 3_600_000
const zones = [
  'America/Denver',
  'Europe/Berlin',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'America/Sao_Paulo',
]
/** A week before the clocks change in Denver, two before they do in Berlin. */
export const START = Date.parse('2026-03-03T00:00:00Z')
const iso = (ms: number) => new Date(Math.round(ms)).toISOString()
/** Left out once in `freq` times. */
const often = <T>(some: fc.Arbitrary<T>, freq = 4) => fc.option(some, { freq, nil: undefined })
const maybe = <T>(some: fc.Arbitrary<T>) => fc.option(some, { freq: 2, nil: undefined })
const seldom = <T>(some: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 7, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: some })
const quarterHours = (from: number, to: number) =>
  fc.integer({ min: from * 4, max: to * 4 }).map((q) => q / 4)

const drain = (id: string) =>
  fc.record({
    id: fc.constant(id),
    kind: fc.constantFrom(...DrainKind.options),
    course: maybe(fc.constantFrom('steady' as const, 'resolving' as const)),
    drainage: maybe(fc.constantFrom('external' as const, 'internal-external' as const)),
    placedAt: quarterHours(-200, 20).map((h) => iso(START + h * HOUR)),
    removedAt: seldom(quarterHours(100, 600).map((h) => iso(START + h * HOUR))),
    cappedAt: seldom(quarterHours(50, 600).map((h) => iso(START + h * HOUR))),
    exchangeBookedFor: seldom(quarterHours(0, 900).map((h) => iso(START + h * HOUR))),
    removalBookedFor: seldom(quarterHours(0, 900).map((h) => iso(START + h * HOUR))),
    bagCapacityMl: fc.constantFrom(null, 100, 600),
    markMl: fc.constantFrom(null, 5, 50),
    onlyKidney: maybe(fc.boolean()),
    usualMlPerDay: fc.constantFrom(null, null, 60, 400),
    usualAppearance: fc.constantFrom(null, null, 'pink' as const, 'cloudy' as const),
    plan: fc.record({
      logEveryHours: fc.constantFrom(12, 24, 48),
      dressingEveryHours: fc.constantFrom(24, 48, 168),
      flush: fc.constantFrom(null, { volumeMl: 10, everyHours: 24 }, { volumeMl: 5, everyHours: 8 }),
      exchangeEveryDays: fc.constantFrom(null, 10, 90),
      overrides: fc.constantFrom(
        {},
        { declineRatio: 0.7 },
        { stoppedHours: 4, feverC: 37.8 },
        { severePain: 6 },
      ),
    }),
  })

const report = (index: number, drains: string[]) =>
  fc
    .record({
      at: quarterHours(0, 700),
      late: fc.constantFrom(0.1, 0.1, 0.1, 1, 30),
      ahead: fc.constantFrom(0, 0, 0, 0, 0, 2),
      reading: often(
        fc.record({
          drain: fc.constantFrom(...drains),
          volumeMl: fc.oneof(
            { weight: 1, arbitrary: fc.constant(null) },
            { weight: 3, arbitrary: fc.constantFrom(0, 3, 5, 8, 12) },
            { weight: 6, arbitrary: fc.integer({ min: 20, max: 500 }) },
            { weight: 1, arbitrary: fc.constantFrom(1100, 1700, 3300) },
          ),
          appearance: maybe(fc.constantFrom(...Appearance.options)),
          total: maybe(fc.boolean()),
        }),
        5,
      ),
      flush: maybe(
        fc.record({
          drain: fc.constantFrom(...drains),
          volumeMl: fc.constantFrom(5, 10, 30, null),
          ease: maybe(fc.constantFrom(...Ease.options)),
        }),
      ),
      dressing: maybe(
        fc.record({
          drain: fc.constantFrom(...drains),
          found: maybe(fc.constantFrom(...DressingFound.options)),
          skin: maybe(fc.constantFrom(...Skin.options)),
          changed: maybe(fc.boolean()),
        }),
      ),
      symptoms: maybe(
        fc.record({
          temperatureC: maybe(fc.constantFrom(36.8, 37.9, 38, 38.6)),
          chills: maybe(fc.boolean()),
          pain: maybe(fc.integer({ min: 0, max: 10 })),
          drains: fc.array(
            fc.record({
              drain: fc.constantFrom(...drains),
              position: maybe(fc.constantFrom(...Position.options)),
              leak: maybe(fc.boolean()),
              draining: maybe(fc.boolean()),
            }),
            { maxLength: 2 },
          ),
          general: maybe(fc.subarray([...General.options], { maxLength: 2 })),
        }),
      ),
      supersedes: seldom(fc.nat()),
    })
    .map((r) => {
      const at = iso(START + (r.at + r.ahead) * HOUR)
      const one = <T>(item: T | undefined) => (item === undefined ? [] : [{ ...item, at }])
      return {
        id: `r${index}`,
        receivedAt: iso(START + (r.at + r.late) * HOUR),
        readings: one(r.reading),
        flushes: one(r.flush),
        dressings: one(r.dressing),
        symptoms: r.symptoms ? { ...r.symptoms, at } : null,
        supersedes: r.supersedes === null || index === 0 ? null : `r${r.supersedes % index}`,
      }
    })

const event = (drains: string[]) =>
  fc
    .record({
      at: quarterHours(0, 700).map((h) => iso(START + h * HOUR)),
      drain: fc.constantFrom(...drains),
      type: fc.constantFrom(...StaffEventType.options),
      code: fc.constantFrom(...FindingCode.options),
    })
    .map(({ code, ...e }) => (e.type === 'flag-closed' ? { ...e, code } : e))

/** A record of one or two drains with up to 30 reports over four weeks. */
export const anyRecord: fc.Arbitrary<PatientRecord> = fc
  .record({ two: fc.boolean(), reports: fc.integer({ min: 0, max: 30 }) })
  .chain(({ two, reports }) => {
    const ids = two ? ['d1', 'd2'] : ['d1']
    return fc.record({
      timeZone: fc.constantFrom(...zones),
      enrolledAt: quarterHours(-20, 30).map((h) => iso(START + h * HOUR)),
      usual: fc.constantFrom(null, { pain: 5, general: ['dizzy' as const] }),
      drains: fc.tuple(...ids.map(drain)),
      reports: fc.tuple(...Array.from({ length: reports }, (_, i) => report(i, ids))),
      staffEvents: fc.array(event(ids), { maxLength: 4 }),
    })
  }) as fc.Arbitrary<PatientRecord>

/** An instant in the four weeks, or soon after. */
export const anyInstant = quarterHours(0, 900).map((h) => iso(START + h * HOUR))
