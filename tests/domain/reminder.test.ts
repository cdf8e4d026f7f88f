import { describe, expect, it } from 'vitest'
import type { DueLog } from '../../lib/domain/due-logs.ts'
import { usualQuietHours } from '../../lib/domain/quiet-hours.ts'
import { planReminders, type ReminderCase, type ReminderPlan } from '../../lib/domain/reminder.ts'

const HOUR_MS = 3_600_000
const zone = 'America/Denver'
const ms = (local: string) => Date.parse(local)
/** A log that was last given then, with one due every so many hours. */
const log = (since: string, hours = 24, graceHours = 12): DueLog => ({
  drain: 'd1',
  sinceMs: ms(since),
  dueMs: ms(since) + hours * HOUR_MS,
  upkeepMs: ms(since) + (hours + graceHours) * HOUR_MS,
})
const asked = (change: Partial<ReminderCase>): ReminderCase => ({
  reminders: { channel: 'email', at: '09:00' },
  followUpEnded: false,
  zone,
  quiet: usualQuietHours,
  logs: [log('2026-03-02T08:30:00-07:00')],
  heardMs: ms('2026-03-02T08:30:00-07:00'),
  given: [],
  nowMs: ms('2026-03-02T10:00:00-07:00'),
  ...change,
})
const local = (at: number | null) => (at === null ? null : new Date(at).toISOString())
const iso = (text: string) => new Date(text).toISOString()

/** All reminders of a case, as a timer that follows the plan gives them. */
function follow(first: ReminderCase): string[] {
  const given = [...first.given]
  const told: string[] = []
  let nowMs = first.nowMs
  for (let turns = 0; turns < 20; turns++) {
    const plan: ReminderPlan = planReminders({ ...first, given, nowMs })
    if (plan.due) {
      const recordedAt = new Date(nowMs).toISOString()
      given.push({ kind: plan.due.kind, dueAt: new Date(plan.due.dueMs).toISOString(), recordedAt })
      told.push(`${plan.due.kind} ${recordedAt}`)
    } else if (plan.nextMs === null) return told
    else nowMs = plan.nextMs
  }
  return told
}

describe('the reminder of the day', () => {
  it('comes at the patient’s hour on the day on which the log falls due, the other after the miss', () => {
    expect(follow(asked({}))).toEqual([
      `due ${iso('2026-03-03T09:00:00-07:00')}`,
      `missed ${iso('2026-03-03T14:30:00-07:00')}`,
    ])
  })
  it('comes before the log is due where that is later in the day', () => {
    const evening = '2026-03-02T19:00:00-07:00'
    expect(follow(asked({ logs: [log(evening)], heardMs: ms(evening), nowMs: ms(evening) }))).toEqual([
      `due ${iso('2026-03-03T09:00:00-07:00')}`,
      // From 19:00 to 07:00; its middle is quiet, so that the last minute before is taken.
      `missed ${iso('2026-03-03T20:59:00-07:00')}`,
    ])
  })
  it('is moved to the nearest free minute where the hour is quiet', () => {
    const early = planReminders(asked({ reminders: { channel: 'email', at: '06:00' } }))
    expect(local(early.nextMs)).toBe(iso('2026-03-03T08:00:00-07:00'))
    const late = planReminders(asked({ reminders: { channel: 'email', at: '22:00' } }))
    expect(follow(asked({ reminders: { channel: 'email', at: '22:00' } }))).toEqual([
      `missed ${iso('2026-03-03T14:30:00-07:00')}`,
    ])
    expect(local(late.nextMs)).toBe(iso('2026-03-03T14:30:00-07:00'))
  })
  it('keeps the patient’s hour when the clocks change', () => {
    const since = '2026-03-07T08:30:00-07:00'
    const plan = planReminders(asked({ logs: [log(since)], heardMs: ms(since), nowMs: ms(since) }))
    expect(local(plan.nextMs)).toBe(iso('2026-03-08T09:00:00-06:00'))
  })
  it('does not come soon after a report, whatever that said', () => {
    const since = '2026-03-03T08:00:00-07:00'
    const plan = follow(asked({ logs: [log(since, 12)], heardMs: ms(since), nowMs: ms(since) }))
    expect(plan).toEqual([`missed ${iso('2026-03-03T20:59:00-07:00')}`])
    const spoke = asked({ heardMs: ms('2026-03-03T08:20:00-07:00') })
    expect(planReminders({ ...spoke, nowMs: ms('2026-03-03T09:00:00-07:00') }).due).toBeNull()
  })
  it('that could not be given at its hour is left out, not given at another', () => {
    expect(planReminders(asked({ nowMs: ms('2026-03-03T09:40:00-07:00') })).due).toMatchObject({
      kind: 'due',
    })
    expect(planReminders(asked({ nowMs: ms('2026-03-03T11:00:00-07:00') }))).toMatchObject({
      due: null,
      nextMs: ms('2026-03-03T14:30:00-07:00'),
    })
  })
})

describe('the reminder after a miss', () => {
  it('keeps two hours from that of the day', () => {
    const night = '2026-03-02T03:00:00-07:00'
    expect(follow(asked({ logs: [log(night)], heardMs: ms(night), nowMs: ms(night) }))).toEqual([
      `due ${iso('2026-03-03T09:00:00-07:00')}`,
      `missed ${iso('2026-03-03T11:00:00-07:00')}`,
    ])
  })
  it('comes alone where the patient’s hour is later than a nurse’s concern', () => {
    const night = '2026-03-02T00:30:00-07:00'
    const reminders = { channel: 'email', at: '14:00' } as const
    expect(follow(asked({ reminders, logs: [log(night)], heardMs: ms(night), nowMs: ms(night) }))).toEqual([
      `missed ${iso('2026-03-03T08:00:00-07:00')}`,
    ])
  })
  it('of an only kidney comes within its four hours', () => {
    const since = '2026-03-02T16:00:00-07:00'
    const plan = follow(asked({ logs: [log(since, 24, 4)], heardMs: ms(since), nowMs: ms(since) }))
    expect(plan.at(-1)).toBe(`missed ${iso('2026-03-03T18:00:00-07:00')}`)
  })
  it('does not come where quiet hours fill the time until a nurse is troubled', () => {
    const since = '2026-03-02T23:00:00-07:00'
    const only = asked({ logs: [log(since, 24, 4)], heardMs: ms(since), nowMs: ms(since) })
    expect(follow(only)).toEqual([`due ${iso('2026-03-03T09:00:00-07:00')}`])
  })
})

describe('several drains', () => {
  it('have one message of each kind', () => {
    const logs = [log('2026-03-02T08:30:00-07:00'), { ...log('2026-03-02T11:00:00-07:00'), drain: 'd2' }]
    expect(follow(asked({ logs, nowMs: ms('2026-03-02T12:00:00-07:00') }))).toEqual([
      `due ${iso('2026-03-03T09:00:00-07:00')}`,
      `missed ${iso('2026-03-03T14:30:00-07:00')}`,
    ])
  })
})

describe('nothing comes', () => {
  it('to somebody who wants none, or whose follow-up has ended', () => {
    expect(follow(asked({ reminders: { channel: 'none', at: '09:00' } }))).toEqual([])
    expect(follow(asked({ followUpEnded: true }))).toEqual([])
  })
  it('where no drain is in place', () => {
    expect(follow(asked({ logs: [] }))).toEqual([])
  })
  it('about a log that was missed days ago', () => {
    expect(follow(asked({ nowMs: ms('2026-03-06T07:00:00-07:00') }))).toEqual([])
  })
})
