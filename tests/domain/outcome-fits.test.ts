import { describe, expect, it } from 'vitest'
import type { Agreed } from '../../lib/domain/callback.ts'
import { type Closing, outcomeFaults } from '../../lib/domain/outcome-fits.ts'

const now = Date.parse('2026-03-02T08:00:00Z')
const inHours = (hours: number) => new Date(now + hours * 3_600_000).toISOString()
const closing = (urgency: Closing['urgency'], state: Closing['state'] = 'open'): Closing => ({
  code: 'leak',
  urgency,
  state,
})
const fits = (one: Closing, agreed: Agreed[], lookHours: number | null = 6, note = '') =>
  outcomeFaults([one], { agreed, lookAgainAt: lookHours === null ? null : inHours(lookHours), note }, now)
    .length === 0

describe('an outcome closes what is at once or within the hour', () => {
  it.each([
    'clinic-visit',
    'imaging',
    'exchange-booked',
    'removal-booked',
    'emergency-department',
    'emergency-services',
  ] as const)('where somebody will see the patient: %s', (agreed) => {
    expect(fits(closing('at-once'), [agreed], null)).toBe(true)
    expect(fits(closing('within-1h'), ['nothing-needed', agreed], null)).toBe(true)
  })

  it.each([
    ['at-once', 24, true],
    ['at-once', 24.01, false],
    ['at-once', null, false],
    ['within-1h', 72, true],
    ['within-1h', 72.01, false],
    ['within-1h', null, false],
  ] as const)('%s, at home with a look again in %s h: %s', (urgency, hours, isFit) => {
    expect(fits(closing(urgency), ['self-care'], hours)).toBe(isFit)
    expect(fits(closing(urgency), ['watch-and-report'], hours)).toBe(isFit)
  })

  it('not by an unexplained nothing', () => {
    for (const urgency of ['at-once', 'within-1h'] as const) {
      expect(fits(closing(urgency), ['nothing-needed'], 6, '  ')).toBe(false)
      expect(fits(closing(urgency), ['nothing-needed'], 6, 'Had misread the bag.')).toBe(true)
    }
  })

  it('whatever was agreed once the evidence is over, except an unexplained nothing of what was at once', () => {
    expect(fits(closing('at-once', 'owed'), ['self-care'], null)).toBe(true)
    expect(fits(closing('within-1h', 'owed'), ['nothing-needed'], null)).toBe(true)
    expect(fits(closing('at-once', 'owed'), ['nothing-needed'], null)).toBe(false)
  })

  it('and what can wait is closed by anything', () => {
    expect(fits(closing('within-24h'), ['nothing-needed'], null)).toBe(true)
    expect(fits(closing('within-3d'), ['self-care'], null)).toBe(true)
  })
})

it('the refusal names what is accepted, and the most urgent of what is not closed', () => {
  const said = { agreed: ['nothing-needed' as const], lookAgainAt: inHours(2), note: '' }
  const [fault] = outcomeFaults(
    [closing('within-1h'), { ...closing('at-once'), code: 'drain-out' }],
    said,
    now,
  )
  expect(fault).toMatchObject({ field: 'agreed', value: 'nothing-needed' })
  expect(fault?.message).toBe(
    'does not close what is at once (leak, drain out); accepted: clinic visit, imaging, exchange booked, removal booked, to the emergency department, emergency services called; or self-care explained, watch and report with a time to look again within 24 h; or nothing needed with a note that says why',
  )
})
