import { describe, expect, it } from 'vitest'
import {
  actByText,
  drainText,
  flagText,
  heardText,
  holdText,
  lateText,
  leftText,
  onCallText,
} from '@/app/ui/worklist/row-text.ts'
import { flag } from '../fixtures/flag.ts'
import { row, rowDrain } from '../fixtures/row.ts'

const now = Date.parse('2026-11-24T14:34:00Z')
const zone = 'America/Denver'

it('says why a row stands there although nothing was waited for any more', () => {
  expect(lateText(row())).toBeNull()
  expect(lateText(row({ lookAgainWhy: 'a report on a drain that was removed' }))).toBe(
    'A report on a drain that was removed.',
  )
  expect(
    lateText(row({ lookAgainWhy: 'a report came after follow-up ended', followUpEnd: 'declined' })),
  ).toBe('A report came after follow-up ended (declined follow-up).')
})

describe('act by', () => {
  it('is a time of the clinic, with how long still', () => {
    expect(actByText(row(), now, zone)).toEqual({
      time: '08:00',
      isNow: false,
      isOver: false,
      label: 'Within 1 hour',
      away: '26 min',
      theirs: null,
    })
  })
  it('says the patient’s own hour beside it where that differs', () => {
    expect(actByText(row({ timeZone: 'America/New_York' }), now, zone).theirs).toBe('their time 10:00')
  })
  it('at once is now, and still says how long over', () => {
    const text = actByText(row({ urgency: 'at-once', actBy: '2026-11-24T13:56:00Z' }), now, zone)
    expect(text).toMatchObject({ time: 'now', isNow: true, isOver: true, away: '38 min over' })
  })
  it('past its time it says so, its label unchanged', () => {
    expect(actByText(row({ actBy: '2026-11-24T14:10:00Z' }), now, zone)).toMatchObject({
      time: '07:10',
      label: 'Within 1 hour',
      away: '24 min over',
    })
  })
  it('on another day it says the day', () => {
    expect(actByText(row({ actBy: '2026-11-25T14:10:00Z' }), now, zone).time).toBe('Wed 07:10')
  })
})

describe('the findings of a row', () => {
  it('stand in sentences, the reported part apart; what is due stands apart', () => {
    const flags = [flag(), flag({ id: 'f2', code: 'dressing-overdue', nature: 'upkeep' })]
    expect(flagText(row({ flags }), now, zone)).toEqual({
      lines: [
        {
          id: 'f1',
          drain: null,
          lead: 'Net output 140 mL',
          rest: ' in the 24 h to 06:50, 34% of this drain’s usual 410 mL/day.',
          owed: false,
        },
      ],
      others: [],
      due: ['dressing due'],
    })
  })
  it('name the drain where there are several, and nothing where a finding is of the whole patient', () => {
    const drains = [rowDrain(), rowDrain({ id: 'd2', label: 'right kidney' })]
    const flags = [flag({ drain: 'd2' }), flag({ id: 'f2', code: 'severe-pain', drain: null })]
    expect(flagText(row({ flags, drains }), now, zone).lines.map(({ drain }) => drain)).toEqual([
      'Right kidney',
      null,
    ])
  })
  it('the third and later are named, and said once', () => {
    const flags = ['a', 'b', 'c', 'd'].map((id) => flag({ id, code: id === 'd' ? 'leak' : 'severe-pain' }))
    expect(flagText(row({ flags }), now, zone)).toMatchObject({ others: ['pain', 'leak'] })
    expect(flagText(row({ flags }), now, zone).lines).toHaveLength(2)
  })
  it('a call that is owed says so', () => {
    expect(flagText(row({ flags: [flag({ state: 'owed' })] }), now, zone).lines[0]?.owed).toBe(true)
  })
})

describe('who has a row', () => {
  const hold = (minutes: number, staffId = 's1') => ({
    staffId,
    name: 'J. Sund (invented)',
    until: new Date(now + minutes * 60_000).toISOString(),
  })
  it('is named with the time left, oneself as you', () => {
    const initials = 'JS'
    expect(holdText(hold(11), now, 's2')).toEqual({
      who: 'J. Sund (invented)',
      initials,
      left: '11 min',
      isOwn: false,
    })
    expect(holdText(hold(0.2), now, 's1')).toEqual({ who: 'you', initials, left: '0:12 min', isOwn: true })
  })
  it.each([
    [15, '15 min'],
    [3.01, '4 min'],
    [3, '3:00 min'],
    [1.501, '1:31 min'],
    [0.001, '0:01 min'],
    [-1, '0:00 min'],
  ])('with %d min to go: %s', (minutes, text) => {
    expect(leftText(minutes * 60_000)).toBe(text)
  })
  it('is nobody once it has lapsed', () => {
    expect(holdText(hold(0), now, 's1')).toBeNull()
    expect(holdText(null, now, 's1')).toBeNull()
  })
})

it.each([
  ['has-it', 'On call: A. Reyes has it since 07:10'],
  ['told', 'On call: A. Reyes was told 07:10, 2 tries, no answer yet'],
  ['nobody', 'On call: nobody could be told, 07:10, 2 tries'],
  ['waiting', 'On call: waits to be told since 07:10, 2 tries'],
] as const)('the person on call: %s', (state, text) => {
  expect(onCallText({ state, name: 'A. Reyes', at: '2026-11-24T14:10:00Z', tries: 2 }, now, zone)).toBe(text)
})

it('a drain is named with its size and the day of its tube, the first day being 1', () => {
  expect(drainText(rowDrain(), now, zone)).toEqual({ name: 'Left kidney', about: '12 F, day 41' })
  expect(
    drainText(rowDrain({ capped: true, frenchSize: null, placedAt: '2026-11-24T14:00:00Z' }), now, zone),
  ).toEqual({
    name: 'Left kidney, capped',
    about: 'day 1',
  })
})
it('says in words from whom it was heard', () => {
  expect(heardText('2026-11-24T13:56:00Z', 'phone-in', now, zone)).toEqual({ time: '06:56', from: 'phone' })
})
it('who was never heard is not heard', () => {
  expect(heardText(null, null, now, zone)).toEqual({ time: 'not heard', from: '' })
})
