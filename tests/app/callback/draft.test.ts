import { describe, expect, it } from 'vitest'
import {
  type CallDraft,
  draftFaults,
  emptyDraft,
  needsLookAgain,
  quickPicks,
  toCallback,
} from '@/app/ui/callback/draft.ts'
import { NewCallback } from '@/lib/domain/callback.ts'
import { flag } from '../fixtures/flag.ts'

const now = Date.parse('2026-11-24T14:34:00Z')
const zone = 'America/Denver'
const reached: CallDraft = {
  ...emptyDraft,
  outcome: 'reached',
  spokenTo: 'patient',
  agreed: ['watch-and-report'],
}

describe('a call that is recorded', () => {
  it('must say how it ended', () => {
    expect(draftFaults(emptyDraft, [], now, zone)).toEqual({ outcome: 'Say how the call ended.' })
  })
  it('reached: must say whom and what was agreed', () => {
    expect(Object.keys(draftFaults({ ...emptyDraft, outcome: 'reached' }, [], now, zone))).toEqual([
      'spokenTo',
      'agreed',
    ])
  })
  it('not reached: needs nothing more, and closes nothing even if something was marked before', () => {
    const draft: CallDraft = { ...reached, outcome: 'no-answer', closes: ['f1'], note: ' tried twice ' }
    expect(draftFaults(draft, [flag()], now, zone)).toEqual({})
    expect(toCallback(draft, zone)).toEqual({ outcome: 'no-answer', note: 'tried twice' })
  })
  it.each([
    ['open', 'within-1h', true],
    ['open', 'at-once', true],
    ['open', 'within-24h', false],
    ['owed', 'at-once', false],
  ] as const)(
    'closing a flag that is %s and %s: a time to look again is needed: %s',
    (state, urgency, needed) => {
      const flags = [flag({ state, urgency })]
      expect(needsLookAgain(flags, ['f1'])).toBe(needed)
      expect(needsLookAgain(flags, [])).toBe(false)
      expect('lookAgain' in draftFaults({ ...reached, closes: ['f1'] }, flags, now, zone)).toBe(needed)
    },
  )
  it('a time that has passed is none', () => {
    expect(draftFaults({ ...reached, lookAgain: '2026-11-24T07:00' }, [], now, zone).lookAgain).toMatch(
      /passed/,
    )
  })
  it('is sent with the clinic’s offset, as the door takes it', () => {
    const sent = toCallback({ ...reached, closes: ['f1'], lookAgain: '2026-11-24T18:00' }, zone)
    expect(sent.lookAgainAt).toBe('2026-11-24T18:00:00-07:00')
    expect(NewCallback.safeParse(sent).success).toBe(true)
  })
})

describe('quick picks', () => {
  it('all lie ahead, in order, by the clinic’s clock', () => {
    expect(quickPicks(now, zone).map(({ value }) => value)).toEqual([
      '2026-11-24T08:34',
      '2026-11-24T11:34',
      '2026-11-24T18:00',
      '2026-11-25T08:00',
      '2026-11-26T08:00',
    ])
  })
  it('this evening is not offered in the evening', () => {
    expect(quickPicks(Date.parse('2026-11-25T01:00:00Z'), zone).map(({ text }) => text)).not.toContain(
      'Today 18:00',
    )
  })
})
