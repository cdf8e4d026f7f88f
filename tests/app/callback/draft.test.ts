import { describe, expect, it } from 'vitest'
import {
  type CallDraft,
  draftFaults,
  draftOf,
  emptyDraft,
  needsLookAgain,
  quickPicks,
  toCallback,
  toCorrection,
} from '@/app/ui/callback/draft.ts'
import { CallCorrection, NewCallback } from '@/lib/domain/callback.ts'
import { flag } from '../fixtures/flag.ts'
import { page } from '../fixtures/page.ts'

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
    expect(toCallback(draft, zone)).toEqual({
      direction: 'we-called',
      outcome: 'no-answer',
      note: 'tried twice',
    })
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

describe('what is closed', () => {
  const closing = (part: Partial<CallDraft>, urgency: 'at-once' | 'within-24h' = 'at-once') =>
    draftFaults({ ...reached, closes: ['f1'], ...part }, [flag({ urgency })], now, zone)
  it('needs an outcome that fits, and the form says which', () => {
    const lookAgain = '2026-11-24T18:00'
    expect(closing({ agreed: ['nothing-needed'], lookAgain }).agreed).toMatch(
      /^This does not close what is at once/,
    )
    expect(closing({ agreed: ['nothing-needed'], lookAgain, note: 'Wrong bag.' })).toEqual({})
    expect(closing({ agreed: ['self-care'], lookAgain })).toEqual({})
    expect(closing({ agreed: ['self-care'], lookAgain: '2026-11-27T18:00' }).agreed).toMatch(/within 24 h/)
    expect(closing({ agreed: ['nothing-needed'] }, 'within-24h')).toEqual({})
  })
})

describe('a correction', () => {
  it('begins with what is on record, and sends no closing', () => {
    const call = page().callbacks[0]
    if (!call) throw new Error('the fixture has a call')
    const draft = draftOf({ ...call, lookAgainAt: '2026-11-25T15:00:00Z', spokenTo: 'interpreter' }, zone)
    expect(draft).toMatchObject({ spokenTo: null, interpreter: true, lookAgain: '2026-11-25T08:00' })
    const sent = toCorrection({ ...draft, spokenTo: 'helper' }, ' the sister ', zone)
    expect(sent).toMatchObject({ spokenTo: 'helper', interpreter: true, why: 'the sister' })
    expect(CallCorrection.safeParse(sent).success).toBe(true)
    expect('closes' in sent).toBe(false)
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
