import { describe, expect, test } from 'vitest'
import { addOutcome, foremost, noSums, resultOf } from '../../../lib/audit/replay/collect.ts'
import { inForceBetween, inForceOf, saysTheSame } from '../../../lib/audit/replay/in-force.ts'
import type { JudgedFlag, MetEvent, Outcome } from '../../../lib/audit/replay/outcome.ts'
import { compared } from '../../../lib/audit/replay/resample.ts'
import { emptyTally } from '../../../lib/audit/replay/tally.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { rulesWith } from '../../support/build.ts'

const outcome = (id: string, judged: JudgedFlag[], events: MetEvent[] = []): Outcome => ({
  ...{ patientId: id, tallies: [emptyTally(), emptyTally()], judged, events, differs: null, weight: 0 },
  ...{ same: 1, different: 0, examples: [], unreadable: 0 },
})
const read = (isWarranted: boolean, inDraft: boolean, weight = 1, part: 0 | 1 = 0): JudgedFlag => ({
  ...{ part, weight, isWarranted, inDraft },
})
const WHOLE = { from: '2026-03-02', until: '2026-03-15', nurseDays: 0 }
const parts = { whole: WHOLE, earlier: WHOLE, later: WHOLE }

describe('the figures of a replay', () => {
  test('tell the predictive value of the flags with a verdict, each as many as it was drawn for', () => {
    const sums = noSums()
    addOutcome(sums, outcome('a', [read(true, true), read(false, false, 4)]))
    addOutcome(sums, outcome('b', [read(true, true, 1, 1), read(false, true, 2, 1)]))
    const { whole, earlier, later } = resultOf(parts, sums)
    // Two of eight weights were warranted; the draft keeps two of four.
    expect(whole.predictiveValue.inForce).toMatchObject({ value: 0.25, n: 4 })
    expect(whole.predictiveValue.draft).toMatchObject({ value: 0.5, n: 3 })
    expect(whole.predictiveValue.change.value).toBe(0.25)
    expect(earlier?.predictiveValue.draft.value).toBe(1)
    expect(later?.predictiveValue.inForce.value).toBeCloseTo(1 / 3)
  })

  test('tell how many events were found, and how far ahead, of those that were', () => {
    const sums = noSums()
    const event = (inForce: number | null, draft: number | null): MetEvent => ({ part: 0, inForce, draft })
    addOutcome(sums, outcome('a', [], [event(10, 30), event(null, 6)]))
    addOutcome(sums, outcome('b', [], [event(20, 40), event(null, null)]))
    const { whole } = resultOf(parts, sums)
    expect(whole.eventsFound.inForce).toMatchObject({ value: 0.5, n: 4 })
    expect(whole.eventsFound.draft).toMatchObject({ value: 0.75, n: 4 })
    expect(whole.hoursAhead.inForce).toMatchObject({ value: 15, n: 2 })
    expect(whole.hoursAhead.draft).toMatchObject({ value: 30, n: 3 })
  })

  test('say nothing where nothing was read, nothing is known and nobody called', () => {
    const { whole } = resultOf(parts, noSums())
    expect(whole.predictiveValue.inForce).toEqual({ value: null, low: null, high: null, n: 0 })
    expect(whole.hoursAhead.change.value).toBeNull()
    expect(whole.perNurseDay).toEqual({ inForce: null, draft: null, nurseDays: 0 })
  })

  test('list the most urgent differences first, whoever was counted first', () => {
    const differ = ['a', 'b', 'c'].map((patientId, i) => ({
      patientId,
      weight: i === 1 ? 100 : 1,
      differs: null as never,
    }))
    const ids = (list: typeof differ) => foremost(list).map(({ patientId }) => patientId)
    expect(ids(differ)).toEqual(['b', 'a', 'c'])
    expect(ids(differ.toReversed())).toEqual(['b', 'a', 'c'])
  })
})

describe('an interval by patient', () => {
  const mean = (patients: readonly number[]) =>
    patients.length === 0 ? null : patients.reduce((sum, one) => sum + one, 0) / patients.length

  test('holds the figure, is the same in every run, and is as wide as patients differ', () => {
    const patients = Array.from({ length: 200 }, (_, i) => (i % 4 === 0 ? 1 : 0))
    const figure = () =>
      compared(patients, mean, (some) => (mean(some) ?? 0) + 0.1, { inForce: 200, draft: 200 })
    const { inForce, change } = figure()
    expect(figure()).toEqual(figure())
    // A share of 0.25 of 200: by the normal approximation 0.19 to 0.31.
    expect(inForce.low).toBeGreaterThan(0.16)
    expect(inForce.low).toBeLessThan(0.22)
    expect(inForce.high).toBeGreaterThan(0.28)
    expect(inForce.high).toBeLessThan(0.34)
    // The same patients in both: their difference does not vary.
    expect(change.low).toBeCloseTo(0.1)
    expect(change.high).toBeCloseTo(0.1)
  })

  test('is not told where all patients are alike: five of five are no certainty', () => {
    const figure = compared([1, 1, 1, 1, 1], mean, mean, { inForce: 5, draft: 5 })
    expect(figure.inForce).toEqual({ value: 1, low: null, high: null, n: 5 })
    expect(figure.change).toEqual({ value: 0, low: null, high: null, n: 5 })
  })

  test('is not told of one patient', () => {
    expect(compared([1], mean, mean, { inForce: 1, draft: 1 }).inForce).toEqual({
      value: 1,
      low: null,
      high: null,
      n: 1,
    })
  })
})

describe('the rule sets in force', () => {
  const set = (version: string, inForceFrom: string, recordedAt: string) => ({
    ...{
      id: version,
      clinicId: 'c',
      version,
      inForceFrom,
      recordedAt,
      recordedBy: 'x',
      why: null,
      draftId: null,
    },
    body: JSON.stringify({ ...standardRuleSet, version }),
  })
  const ms = (day: string) => Date.parse(`${day}T00:00:00Z`)
  const stored = [
    set('two', '2026-03-10T00:00:00.000Z', '2026-03-05T00:00:00.000Z'),
    // Recorded later and in force from before: the one that came into force last still holds.
    set('three', '2026-03-08T00:00:00.000Z', '2026-03-12T00:00:00.000Z'),
  ]

  test('hold from their moment, or from when they were recorded, and the latest to come into force wins', () => {
    const sets = inForceOf(stored, ms('2026-03-31'))
    expect(sets.map(({ rules }) => rules.version)).toEqual(['2026.1', 'two', 'two'])
    expect(inForceBetween(sets, ms('2026-03-01'), ms('2026-03-04')).map(({ version }) => version)).toEqual([
      '2026.1',
    ])
    expect(inForceOf(stored, ms('2026-03-09'))).toHaveLength(1)
  })

  test('say the same where every number is the same, whatever the name', () => {
    expect(saysTheSame(standardRuleSet, { ...standardRuleSet, version: 'other' })).toBe(true)
    expect(saysTheSame(standardRuleSet, rulesWith({ feverC: 38.1 }))).toBe(false)
  })
})
