import { describe, expect, it } from 'vitest'
import type { AttemptOutcome } from '../../lib/domain/callback.ts'
import { type FailedAttempt, nextStep } from '../../lib/domain/next-step.ts'
import { nextStepText } from '../../lib/domain/next-step-text.ts'
import { failedSince, nextTry } from '../../lib/domain/next-try.ts'
import { NoAnswer, NoAnswerRule, standardNoAnswer } from '../../lib/domain/no-answer.ts'
import type { Contact } from '../../lib/domain/profile.ts'

const START = Date.parse('2026-03-02T15:00:00Z')
const iso = (minutes: number) => new Date(START + minutes * 60_000).toISOString()
const zone = 'America/Denver'
const attempt = (
  minutes: number,
  contact: string | null = null,
  outcome: AttemptOutcome = 'no-answer',
): FailedAttempt => ({
  at: iso(minutes),
  contact,
  outcome,
})
const contact = (name: string, change: Partial<Contact> = {}): Contact => ({
  name,
  relation: 'daughter',
  phone: '555 0101',
  email: null,
  mayCall: true,
  mayVoicemail: false,
  mayDisclose: 'clinic-name',
  ...change,
})
const contacts = [
  contact('Ada', { relation: 'self', mayDisclose: 'everything' }),
  contact('Bea'),
  contact('Cleo', { mayCall: false }),
  contact('Dina', {
    relation: 'neighbour',
    phone: '555 0102',
    mayDisclose: 'call-back-only',
    mayVoicemail: true,
  }),
]
const next = (urgency: keyof NoAnswer, attempts: FailedAttempt[], whom = contacts) =>
  nextStep(standardNoAnswer[urgency], attempts, whom)
const says = (urgency: keyof NoAnswer, attempts: FailedAttempt[], nowMinutes: number, whom = contacts) => {
  const step = next(urgency, attempts, whom)
  return step && nextStepText(step, START + nowMinutes * 60_000, zone)
}

describe('at once: three tries in 15 minutes, contacts in order, on call, welfare check', () => {
  it('nothing was tried: nothing is said', () => expect(next('at-once', [])).toBeNull())
  it.each([
    [[attempt(0)], 1, 'Try again at 08:05.'],
    [[attempt(0)], 5, 'Try again now.'],
    [[attempt(0), attempt(6)], 7, 'Try again at 08:11.'],
    [
      [attempt(0), attempt(6), attempt(11)],
      11,
      'Call Bea (daughter, 555 0101): may be told that the clinic calls; no voicemail.',
    ],
    [
      [attempt(0), attempt(6), attempt(11), attempt(12, 'Bea', 'left-message')],
      12,
      'Call Dina (neighbour, 555 0102): may be told only: please call back.',
    ],
    [
      [attempt(0), attempt(6), attempt(11), attempt(12, 'Bea'), attempt(13, 'Dina')],
      14,
      'Tell the person on call; then ask for a welfare check by local protocol.',
    ],
  ])('%#', (attempts, now, text) => expect(says('at-once', attempts, now)).toBe(text))

  it('a wrong number is not tried again', () => {
    expect(says('at-once', [attempt(0, null, 'wrong-number')], 1)).toMatch(/^Call Bea/)
  })
  it('a contact who was called first uses up no try of the patient’s own number', () => {
    expect(says('at-once', [attempt(0, 'Bea')], 1)).toBe('Try again now.')
  })
  it('without contacts it goes on to whoever is on call', () => {
    expect(says('at-once', [attempt(0), attempt(5), attempt(10)], 11, [])).toMatch(/^Tell the person on call/)
  })
})

describe('what can wait', () => {
  it('within 24 h: two tries a day for two days, then the contacts', () => {
    expect(says('within-24h', [attempt(0)], 10)).toBe('Try again at 12:00.')
    expect(says('within-24h', [attempt(0), attempt(240)], 300)).toBe('Try again at Tue 08:00.')
    const second = [attempt(0), attempt(240), attempt(1440)]
    expect(says('within-24h', second, 1450)).toBe('Try again at 12:00.')
    expect(says('within-24h', [...second, attempt(1690)], 1700)).toMatch(/^Call Bea/)
  })
  it('within 3 days: two tries, then local protocol', () => {
    expect(says('within-3d', [attempt(0), attempt(1500)], 1600)).toBe(
      'Every try of the clinic’s rule is used up: decide by local protocol.',
    )
  })
})

describe('which tries count', () => {
  const call = (minutes: number, outcome: AttemptOutcome, gone: object = {}) => ({
    at: iso(minutes),
    contact: null,
    outcome,
    undoneAt: null,
    correctedBy: null,
    ...gone,
  })
  const flag = (urgency: 'at-once' | 'within-24h', minutes: number) => ({
    state: 'open' as const,
    urgency,
    openedAt: iso(minutes),
  })
  const of = (flags: ReturnType<typeof flag>[], failed: FailedAttempt[]) =>
    nextTry({ rules: standardNoAnswer, zone, flags, failed, contacts }, START + 60 * 60_000)

  it('those since somebody was reached, without what was taken back or corrected', () => {
    const calls = [
      call(0, 'no-answer'),
      call(10, 'reached'),
      call(20, 'no-answer'),
      call(30, 'no-answer', { undoneAt: iso(30) }),
      call(40, 'left-message', { correctedBy: 'c9' }),
    ]
    expect(failedSince(calls).map(({ at }) => at)).toEqual([iso(20)])
  })
  it('those since what is most pressing opened', () => {
    const failed = [attempt(0), attempt(50)]
    expect(of([flag('within-24h', -60)], failed)?.says).toBe('Try again at Tue 08:00.')
    expect(of([flag('within-24h', -60), flag('at-once', 40)], failed)?.says).toBe('Try again now.')
    expect(of([flag('within-24h', -60), flag('at-once', 55)], failed)).toBeNull()
    expect(of([], failed)).toBeNull()
  })
})

describe('the rules of a clinic', () => {
  it('the standard ones are accepted', () =>
    expect(NoAnswer.parse(standardNoAnswer)).toEqual(standardNoAnswer))
  it.each([
    { tries: 0 },
    { tries: 11 },
    { tries: 1.5 },
    { everyMinutes: 0 },
    { everyMinutes: 1441 },
    { next: ['contacts', 'contacts'] },
    { next: ['letter'] },
    { extra: 1 },
  ])('refuses %o', (change) => {
    expect(NoAnswerRule.safeParse({ ...standardNoAnswer['at-once'], ...change }).success).toBe(false)
  })
  it('takes more than one next day', () => {
    expect(
      NoAnswerRule.safeParse({ tries: 1, everyMinutes: 60, next: ['next-day', 'next-day'] }).success,
    ).toBe(true)
  })
})
