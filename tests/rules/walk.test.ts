import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Finding } from '../../lib/domain/assessment.ts'
import { assess } from '../../lib/rules/assess.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { Walk } from '../../lib/rules/walk.ts'
import { days, record, rulesWith } from '../support/build.ts'
import { anyRecord, START } from '../support/records.ts'

const HOUR = 3_600_000
const iso = (ms: number) => new Date(ms).toISOString()
const END = START + 750 * HOUR

/** A finding with all its words, as `assess` gives it. */
const told = ({ code, drain, nature, urgency, since, actBy, says, ends, evidence, threshold }: Finding) => ({
  ...{ code, drain, nature, urgency, since, actBy },
  ...{ says, ends, evidence, threshold },
})

describe('a walk', { timeout: 120_000 }, () => {
  test('finds at every moment what assess finds, of crowded and untidy records', () => {
    fc.assert(
      fc.property(
        anyRecord,
        fc.constantFrom(standardRuleSet, rulesWith({ declineRatio: 0.8 })),
        (of, rules) => {
          const walk = new Walk(of, rules, END)
          const news = [...of.reports.map((one) => one.receivedAt), ...of.staffEvents.map(({ at }) => at)]
            .map((at) => Date.parse(at))
            .filter((at) => at >= START)
            .sort((a, b) => a - b)
          for (let at = START, step = 0; at < END; step++) {
            const moment = walk.at(at)
            const whole = assess(of, rules, iso(at))
            expect(moment.findings.map(told)).toEqual(whole.findings)
            expect(moment.nextMs === Number.POSITIVE_INFINITY ? null : iso(moment.nextMs)).toBe(
              whole.nextCheckAt,
            )
            const then = Math.min(moment.nextMs, ...news.filter((one) => one > at), END)
            // Every third step stops between two moments, too: nothing changes there, and nothing is lost by asking.
            at = step % 3 === 0 ? Math.max(at + 1, Math.floor((at + then) / 2)) : Math.max(at + 1, then)
          }
        },
      ),
      { numRuns: 100 },
    )
  })

  test('leaves what was not received yet out of sight', () => {
    const of = record({}, days([400, 400, 400, 400, 400, 20]))
    const last = Date.parse(of.reports.at(-1)?.receivedAt ?? '')
    const walk = new Walk(of, standardRuleSet, last + HOUR)
    expect(walk.at(last - 1).findings.map(({ code }) => code)).not.toContain('output-decline')
    expect(walk.at(last).findings.map(({ code }) => code)).toContain('output-decline')
  })

  test('refuses to go back in time, or beyond its end', () => {
    const walk = new Walk(record({}), standardRuleSet, END)
    walk.at(END)
    expect(() => walk.at(END - 1)).toThrow('before the one')
    expect(() => walk.at(END + 1)).toThrow('after the end')
  })
})
