import { expect, it } from 'vitest'
import { type EventToMatch, type FlagToMatch, matchEvents } from '../../../lib/audit/figures/index.ts'

const event = (change: Partial<EventToMatch> = {}): EventToMatch => ({
  id: 'e1',
  patientId: 'p1',
  drain: 'd1',
  kind: 'obstruction',
  at: '2026-03-20T12:00:00.000Z',
  heardAt: '2026-03-19T12:00:00.000Z',
  ...change,
})
const flag = (change: Partial<FlagToMatch> = {}): FlagToMatch => ({
  id: 'f1',
  patientId: 'p1',
  drain: 'd1',
  code: 'output-stopped',
  openedAt: '2026-03-19T00:00:00.000Z',
  ...change,
})

it('finds an event by the earliest flag that answers it, and says how far ahead', () => {
  const flags = [flag(), flag({ id: 'f2', code: 'leak', openedAt: '2026-03-18T12:00:00.000Z' })]
  const found = { event: 'e1', flagId: 'f2', hoursAhead: 48, hoursSinceHeard: 24 }
  expect(matchEvents([event()], flags)).toEqual([found])
  expect(matchEvents([event()], flags.toReversed())).toEqual([found])
})

it.each([
  ['168 h before', { openedAt: '2026-03-13T12:00:00.000Z' }, true],
  ['a second earlier', { openedAt: '2026-03-13T11:59:59.000Z' }, false],
  ['at the same moment', { openedAt: '2026-03-20T12:00:00.000Z' }, true],
  ['afterwards', { openedAt: '2026-03-20T12:00:01.000Z' }, false],
  ['of the whole patient', { drain: null, code: 'blocked-and-infected' as const }, true],
  ['of another drain', { drain: 'd2' }, false],
  ['of another patient', { patientId: 'p2' }, false],
  ['of a finding that does not tell of it', { code: 'bleeding' as const }, false],
  ['that says only that nothing was heard', { code: 'log-missed' as const }, false],
])('a flag %s: %j answers: %s', (_, change, isFound) => {
  const [match] = matchEvents([event()], [flag(change)])
  expect(match?.hoursAhead !== null).toBe(isFound)
  expect(match?.flagId).toBe(isFound ? 'f1' : null)
})

it('takes an event that names no drain as one of any, and knows when nothing was ever heard', () => {
  const [match] = matchEvents([event({ drain: null, heardAt: null })], [flag({ drain: 'd2' })])
  expect(match).toEqual({ event: 'e1', flagId: 'f1', hoursAhead: 36, hoursSinceHeard: null })
})

it('knows of a replayed flag, which has no id, that it found the event', () => {
  const [match] = matchEvents([event()], [flag({ id: null })])
  expect(match).toMatchObject({ flagId: null, hoursAhead: 36 })
})
