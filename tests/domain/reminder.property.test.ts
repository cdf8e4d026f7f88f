import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { DueLog } from '../../lib/domain/due-logs.ts'
import { localDate } from '../../lib/domain/local-time.ts'
import { isQuiet } from '../../lib/domain/quiet-hours.ts'
import { type GivenReminder, planReminders } from '../../lib/domain/reminder.ts'

const HOUR_MS = 3_600_000
const START = Date.parse('2026-03-05T00:00:00Z') // the clocks change in Denver three days later
const DAYS = 8

const clock = fc
  .tuple(fc.nat(23), fc.nat(59))
  .map((pair) => pair.map((n) => String(n).padStart(2, '0')).join(':'))
const life = fc.record({
  zone: fc.constantFrom('America/Denver', 'Pacific/Chatham', 'Asia/Kolkata', 'Europe/Berlin'),
  at: clock,
  quiet: fc.record({ from: clock, until: clock }),
  drains: fc.array(
    fc.record({
      logEveryHours: fc.constantFrom(4, 8, 12, 24, 48),
      graceHours: fc.constantFrom(0, 4, 12, 24),
      since: fc.integer({ min: -48, max: 12 }),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  /** Reports, as hours from the start; a drain is logged or left out. */
  reports: fc.array(
    fc.record({ hour: fc.double({ min: 0, max: DAYS * 24, noNaN: true }), logs: fc.nat(7) }),
    {
      maxLength: 12,
    },
  ),
  /** How late the timer comes, in minutes; and when follow-up ends. */
  lateMinutes: fc.nat(90),
  endHour: fc.option(fc.nat(DAYS * 24)),
})
type Life = typeof life extends fc.Arbitrary<infer T> ? T : never

type Sent = GivenReminder & { ms: number; logs: DueLog[]; heardMs: number }

/** Lives a life by the plan, as the timer does: at each time that it names, some minutes late, and at each report. */
function live({ zone, at, quiet, drains, reports, lateMinutes, endHour }: Life): Sent[] {
  const news = reports.map(({ hour, logs }) => ({ ms: START + Math.round(hour * HOUR_MS), logs }))
  const since = drains.map((drain) => START + drain.since * HOUR_MS)
  const endMs = endHour === null ? Number.POSITIVE_INFINITY : START + endHour * HOUR_MS
  const sent: Sent[] = []
  let heardMs = Number.NEGATIVE_INFINITY
  let nowMs = START
  const pending = news.toSorted((a, b) => a.ms - b.ms)
  while (nowMs < START + DAYS * 24 * HOUR_MS) {
    const logs = drains.map(({ logEveryHours, graceHours }, i) => {
      const sinceMs = since[i] ?? START
      const dueMs = sinceMs + logEveryHours * HOUR_MS
      return { drain: `d${i}`, sinceMs, dueMs, upkeepMs: dueMs + graceHours * HOUR_MS }
    })
    const plan = planReminders({
      reminders: { channel: 'email', at },
      followUpEnded: nowMs >= endMs,
      zone,
      quiet,
      logs,
      heardMs,
      given: sent,
      nowMs,
    })
    if (plan.due) {
      const { kind, dueMs } = plan.due
      sent.push({
        kind,
        dueAt: new Date(dueMs).toISOString(),
        recordedAt: new Date(nowMs).toISOString(),
        ms: nowMs,
        logs,
        heardMs,
      })
      continue
    }
    expect(plan.nextMs ?? Number.POSITIVE_INFINITY).toBeGreaterThan(nowMs)
    const wake = plan.nextMs === null ? Number.POSITIVE_INFINITY : plan.nextMs + lateMinutes * 60_000
    const report = pending[0]
    nowMs = Math.min(wake, report?.ms ?? Number.POSITIVE_INFINITY)
    if (report && report.ms <= nowMs) {
      pending.shift()
      heardMs = report.ms
      for (const i of drains.keys()) if (report.logs & (1 << i)) since[i] = Math.max(since[i] ?? 0, report.ms)
    }
  }
  return sent
}

const check = (holds: (sent: Sent[], life: Life) => void) =>
  fc.assert(
    fc.property(life, (one) => holds(live(one), one)),
    { numRuns: 150 },
  )

describe('whatever a life brings', () => {
  it('no due log has two reminders of one kind, and no day', () => {
    check((sent, { zone }) => {
      for (const kind of ['due', 'missed'] as const) {
        const own = sent.filter((one) => one.kind === kind)
        expect(new Set(own.map(({ dueAt }) => dueAt)).size).toBe(own.length)
        expect(new Set(own.map(({ ms }) => localDate(ms, zone))).size).toBe(own.length)
      }
    })
  })
  it('after the one that follows a miss nothing comes until something is heard', () => {
    check((sent, { drains }) => {
      if (drains.length > 1) return
      sent.forEach((one, i) => {
        const before = sent[i - 1]
        if (before?.kind === 'missed') expect(one.heardMs).toBeGreaterThanOrEqual(before.ms)
      })
    })
  })
  it('none comes in quiet hours', () => {
    check((sent, { quiet, zone }) => {
      for (const { ms } of sent) expect(isQuiet(ms, quiet, zone)).toBe(false)
    })
  })
  it('none comes after follow-up has ended', () => {
    check((sent, { endHour }) => {
      for (const { ms } of sent) if (endHour !== null) expect(ms).toBeLessThan(START + endHour * HOUR_MS)
    })
  })
  it('none comes for a log that came, nor soon after a report', () => {
    check((sent, { drains }) => {
      const shortest = Math.min(...drains.map(({ logEveryHours }) => logEveryHours))
      for (const { kind, ms, heardMs, logs, dueAt } of sent) {
        expect(logs.map(({ dueMs }) => dueMs)).toContain(Date.parse(dueAt)) // it is waited for still
        expect(ms - heardMs).toBeGreaterThanOrEqual((shortest / 3) * HOUR_MS)
        if (kind === 'missed') expect(heardMs).toBeLessThan(Date.parse(dueAt))
      }
    })
  })
  it('the one after a miss comes after it', () => {
    check((sent) => {
      for (const { kind, ms, dueAt } of sent)
        if (kind === 'missed') expect(ms).toBeGreaterThanOrEqual(Date.parse(dueAt))
    })
  })
})
