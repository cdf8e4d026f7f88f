import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { PatientRecord } from '../../../lib/domain/record.ts'
import { History } from '../../../lib/rules/moment.ts'
import { sharesHistory } from '../../../lib/rules/series/output-up-to.ts'
import { prepare } from '../../../lib/rules/series/prepare.ts'
import { type DrainView, View } from '../../../lib/rules/series/view.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { closed, days, event, flush, reading, record, START } from '../../support/build.ts'
import { anyRecord } from '../../support/records.ts'

const NOW = START + 1000 * 3_600_000
const latest = (of: PatientRecord) => new History(prepare(of, standardRuleSet, NOW))

/** What an output says, with its getters read. */
function told({ output }: DrainView) {
  const { all, own, days: perDay, complete, clean, suspicions, last24, baseline } = output
  const end = (list: readonly { end: number }[]) => list.map((part) => part.end)
  return {
    stretches: [end(all), end(own)],
    // A day without any output known may stand at the end, or not.
    days: perDay
      .filter((day) => day.coverage > 0)
      .map((day) => [day.date, day.netMl.toFixed(6), day.coverage.toFixed(9), day.from]),
    complete: end(complete),
    clean: end(clean),
    suspicions: suspicions.map((s) => [s.stretch.end, s.expectedMl.toFixed(6)]),
    last24: last24 && [last24.end, last24.netMl.toFixed(6), last24.coverage.toFixed(9), last24.baseline],
    baseline,
  }
}

/** Every earlier view of a record against one that was worked out from nothing; how many were cut short. */
function compare(of: PatientRecord): number {
  let shared = 0
  const history = latest(of)
  history.record.known.forEach((cut, k) => {
    const fresh = new View(prepare(of, standardRuleSet, cut), cut)
    history.view(k).drains.forEach((drain, i) => {
      expect(told(drain)).toEqual(told(fresh.drains[i] as DrainView))
      if (drain.latest && sharesHistory(drain, drain.latest)) shared += 1
    })
  })
  return shared
}

describe('an earlier view, cut short', () => {
  it('says what one worked out from nothing says, after every report', () => {
    const told = [
      ...days([400, 410, 395, 14, 400, 120]),
      flush(130, 10),
      reading(140, 60),
      reading(200, 300),
      reading(212, null),
    ]
    const of = record({ bagCapacityMl: 350 }, told)
    expect(compare(of)).toBe(10) // enrolment and all but the last of ten reports
  })

  it('does so on random records, in step or not', () => {
    let shared = 0
    const inStep = anyRecord.map((of) => ({
      ...of,
      reports: of.reports.map((r) => ({
        ...r,
        supersedes: null,
        receivedAt: r.readings?.[0]?.at ?? r.flushes?.[0]?.at ?? r.receivedAt,
      })),
    }))
    fc.assert(
      fc.property(fc.oneof(inStep, anyRecord), (of) => {
        shared += compare(of)
      }),
      { numRuns: 150 },
    )
    expect(shared).toBeGreaterThan(100)
  })
})

describe('what keeps a view from being cut short', () => {
  const shares = (of: PatientRecord, k: number) => {
    const drain = latest(of).view(k).drains[0]
    return Boolean(drain?.latest && sharesHistory(drain, drain.latest))
  }
  it.each([
    ['nothing', record({}, days([400, 400, 400])), true],
    [
      'a correction',
      record({}, [reading(24, 40, { id: 'a' }), reading(24, 400, { supersedes: 'a', received: 30 })]),
      false,
    ],
    ['a late report', record({}, [reading(24, 400, { received: 80 }), reading(48, 400)]), false],
    ['a late flush', record({}, [reading(24, 400), flush(20, 10, { received: 30 })]), false],
    ['two reports of one instant', record({}, [reading(24, 400), reading(24, 100, { received: 30 })]), false],
    ['a new tube since', record({}, days([400, 400, 400]), [event(60, 'exchanged')]), false],
    [
      'an uncapping since',
      record({}, days([400, 400, 400]), [event(50, 'capped'), event(60, 'uncapped')]),
      false,
    ],
    ['a fall closed since', record({}, days([400, 400, 400]), [closed(60, 'output-decline')]), false],
  ] as const)('%s', (_, of, expected) => {
    expect(shares(of, 1)).toBe(expected)
  })
})
