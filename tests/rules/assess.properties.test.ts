import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Assessment } from '../../lib/domain/assessment.ts'
import type { PatientRecord } from '../../lib/domain/record.ts'
import { urgencyRank } from '../../lib/domain/words.ts'
import { assess } from '../../lib/rules/assess.ts'
import { daysUntil } from '../../lib/rules/drain-output.ts'
import { readRecord } from '../../lib/rules/read-record.ts'
import { prepare } from '../../lib/rules/series/prepare.ts'
import { stretchesOf } from '../../lib/rules/series/stretches.ts'
import { type DrainView, View } from '../../lib/rules/series/view.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { anyInstant, anyRecord, START } from '../support/records.ts'

const run = (record: PatientRecord, at: string) => assess(record, standardRuleSet, at)
const iso = (ms: number) => new Date(ms).toISOString()
const RUNS = { numRuns: 200 }

function frozen<T>(value: T): T {
  if (value && typeof value === 'object' && !Object.isFrozen(value)) {
    Object.freeze(value)
    for (const part of Object.values(value)) frozen(part)
  }
  return value
}

describe('assess on random records', { timeout: 120_000 }, () => {
  test('reads every record that the generator makes, and changes nothing in it', () => {
    fc.assert(
      fc.property(anyRecord, anyInstant, (record, at) => {
        expect(readRecord(record).faults).toEqual([])
        expect(() => run(frozen(record), at)).not.toThrow()
      }),
      RUNS,
    )
  })

  test('gives the same answer whatever the order of reports and events', () => {
    fc.assert(
      fc.property(anyRecord, anyInstant, fc.infiniteStream(fc.nat()), (record, at, keys) => {
        const shuffled = <T>(list: T[]) =>
          list
            .map((item) => ({ item, key: keys.next().value }))
            .sort((a, b) => a.key - b.key)
            .map(({ item }) => item)
        const other = {
          ...record,
          reports: shuffled(record.reports),
          staffEvents: shuffled(record.staffEvents),
        }
        expect(run(other, at)).toEqual(run(record, at))
      }),
      RUNS,
    )
  })

  test('says the same until its next check, where nothing comes: only days are added, of which nothing is known', () => {
    fc.assert(
      fc.property(anyRecord, anyInstant, fc.double({ min: 0, max: 1, noNaN: true }), (record, at, part) => {
        const before = run(record, at)
        const now = Date.parse(before.asOf)
        const end = before.nextCheckAt === null ? now + 90 * 86_400_000 : Date.parse(before.nextCheckAt) - 1
        const later = iso(now + Math.floor((end - now) * part))
        const news = [
          ...record.drains.flatMap(({ placedAt, removedAt, cappedAt }) => [placedAt, removedAt, cappedAt]),
          ...record.reports.map(({ receivedAt }) => receivedAt),
          ...record.staffEvents.map((event) => event.at),
        ]
        fc.pre(
          !news.some((one) => one != null && Date.parse(one) > now && Date.parse(one) <= Date.parse(later)),
        )
        const drains = before.drains.map((drain) => ({
          ...drain,
          days: daysUntil(drain.days, record.timeZone, Date.parse(later)),
        }))
        expect(run(record, later)).toEqual({ ...before, asOf: later, drains })
      }),
      RUNS,
    )
  })

  test('does not look at what was received, or happened, after the instant', () => {
    fc.assert(
      fc.property(anyRecord, anyInstant, (record, at) => {
        const now = Date.parse(at)
        const upTo = (time: string | null | undefined) => time != null && Date.parse(time) <= now
        const known: PatientRecord = {
          ...record,
          drains: record.drains.map((d) => ({
            ...d,
            removedAt: upTo(d.removedAt) ? d.removedAt : null,
            cappedAt: upTo(d.cappedAt) ? d.cappedAt : null,
          })),
          reports: record.reports.filter((r) => upTo(r.receivedAt)),
          staffEvents: record.staffEvents.filter((e) => upTo(e.at)),
        }
        const kept = new Set(known.reports.map((r) => r.id))
        known.reports = known.reports.map((r) =>
          r.supersedes && !kept.has(r.supersedes) ? { ...r, supersedes: null } : r,
        )
        const cut = record.reports.some((r) => kept.has(r.id) && r.supersedes && !kept.has(r.supersedes))
        fc.pre(!cut)
        expect(run(known, at)).toEqual(run(record, at))
      }),
      RUNS,
    )
  })

  test('takes instants for equal whatever their offset', () => {
    const east = (text: string) => iso(Date.parse(text) + 5.5 * 3_600_000).replace('Z', '+05:30')
    fc.assert(
      fc.property(anyRecord, anyInstant, (record, at) => {
        const moved = JSON.parse(
          JSON.stringify(record).replace(
            /"(\d{4}-\d\d-\d\dT[\d:.]+Z)"/g,
            (_, text: string) => `"${east(text)}"`,
          ),
        ) as PatientRecord
        expect(run(moved, east(at))).toEqual(run(record, at))
      }),
      RUNS,
    )
  })

  test('says the same at any instant before nextCheckAt, and something else at it', () => {
    fc.assert(
      fc.property(
        anyRecord,
        fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
        (record, share) => {
          const newest = Math.max(
            Date.parse(record.enrolledAt),
            ...record.drains.flatMap((d) =>
              [d.placedAt, d.removedAt, d.cappedAt].map((t) => (t ? Date.parse(t) : START)),
            ),
            ...record.reports.map((r) => Date.parse(r.receivedAt)),
            ...record.staffEvents.map((e) => Date.parse(e.at)),
          )
          const now = newest + 3_600_000
          const first = run(record, iso(now))
          if (first.nextCheckAt === null) {
            expect(run(record, iso(now + 400 * 86_400_000)).findings).toEqual(first.findings)
            return
          }
          const next = Date.parse(first.nextCheckAt)
          expect(next).toBeGreaterThan(now)
          expect(run(record, iso(now + Math.floor((next - now) * share))).findings).toEqual(first.findings)
          expect(run(record, iso(next - 1)).findings).toEqual(first.findings)
          expect(run(record, iso(next)).findings).not.toEqual(first.findings)
        },
      ),
      RUNS,
    )
  })

  test('dates each finding to the start of its unbroken run', () => {
    const holds = (a: Assessment, f: Assessment['findings'][number]) =>
      a.findings.some(
        (g) => g.code === f.code && g.drain === f.drain && urgencyRank[g.urgency] >= urgencyRank[f.urgency],
      )
    fc.assert(
      fc.property(anyRecord, anyInstant, (record, at) => {
        const now = Date.parse(at)
        for (const finding of run(record, at).findings) {
          const since = Date.parse(finding.since)
          expect(since).toBeLessThanOrEqual(now)
          const moments = record.reports
            .map((r) => Date.parse(r.receivedAt))
            .concat(record.staffEvents.map((e) => Date.parse(e.at)))
            .filter((t, i) => t > since && t <= now && i % 6 === 0)
          for (const t of [since, ...moments, since + Math.floor((now - since) / 2)])
            expect(holds(run(record, iso(t)), finding), `${finding.code} at ${iso(t)}`).toBe(true)
          expect(holds(run(record, iso(since - 1)), finding), `${finding.code} before ${finding.since}`).toBe(
            false,
          )
        }
      }),
      { numRuns: 150 },
    )
  })

  test('conserves mass: the days of a drain hold what its readings brought less its flushes', () => {
    fc.assert(
      fc.property(anyRecord, anyInstant, (record, at) => {
        const view = new View(prepare(record, standardRuleSet, Date.parse(at)), Date.parse(at))
        run(record, at).drains.forEach((drain, i) => {
          const brought = stretchesOf(view.drains[i] as DrainView).reduce((sum, s) => sum + (s.netMl ?? 0), 0)
          expect(drain.days.reduce((sum, day) => sum + (day.netMl ?? 0), 0)).toBeCloseTo(brought, 5)
          for (const day of drain.days) {
            expect(day.coverage).toBeGreaterThanOrEqual(0)
            expect(day.coverage).toBeLessThanOrEqual(1)
            expect(day.netMl === null).toBe(day.coverage === 0)
          }
        })
      }),
      RUNS,
    )
  })
})
