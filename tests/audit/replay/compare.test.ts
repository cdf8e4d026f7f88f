import { describe, expect, test } from 'vitest'
import { paired, sameAsHappened, shift } from '../../../lib/audit/replay/compare.ts'
import type { Life } from '../../../lib/audit/replay/kept.ts'

const at = (hours: number) => new Date(Date.parse('2026-03-02T00:00:00Z') + hours * 3_600_000).toISOString()

/** A flag that stood from one hour to another; open where it has no end. */
function life(
  code: string,
  opened: number,
  ended: number | null,
  rest: object = {},
  drain: string | null = 'd1',
): Life {
  const state = ended === null ? 'open' : 'ended'
  const flag = {
    id: `${code}${opened}`,
    code,
    drain,
    state,
    urgency: 'within-24h',
    openedAt: at(opened),
    holdsStill: true,
  }
  const spans = [{ from: Date.parse(at(opened)), to: ended === null ? null : Date.parse(at(ended)) }]
  const openedMs = Date.parse(at(opened))
  return {
    flag,
    openedMs,
    steps: [],
    changedAt: at(opened),
    peak: 'within-24h',
    spans,
    ...rest,
  } as unknown as Life
}
const told = (pairs: ReturnType<typeof paired>) =>
  pairs.map(({ inForce, draft }) => `${inForce?.flag.id ?? '-'} ${draft?.flag.id ?? '-'}`)

describe('flags of two courses', () => {
  test('are the same where finding, drain and times meet, each with at most one other', () => {
    expect(told(paired([life('leak', 1, 5)], [life('leak', 3, null)]))).toEqual(['leak1 leak3'])
    expect(told(paired([life('leak', 1, 5)], [life('leak', 6, 8)]))).toEqual(['leak1 -', '- leak6'])
    expect(told(paired([life('leak', 1, 5)], [life('unwell', 1, 5)]))).toEqual(['leak1 -', '- unwell1'])
    expect(told(paired([life('leak', 1, 5)], [life('leak', 1, 5, {}, 'd2')]))).toEqual(['leak1 -', '- leak1'])
    expect(told(paired([life('leak', 1, 3), life('leak', 4, 6)], [life('leak', 1, 9)]))).toEqual([
      'leak1 leak1',
      'leak4 -',
    ])
  })

  test('are still the same after a call closed one, while its finding holds', () => {
    const closed = life('leak', 1, 2)
    Object.assign(closed.flag, { state: 'closed' })
    expect(told(paired([closed], [life('leak', 9, null)]))).toEqual(['leak1 leak9'])
    Object.assign(closed.flag, { holdsStill: false })
    expect(told(paired([closed], [life('leak', 9, null)]))).toEqual(['leak1 -', '- leak9'])
  })

  test('differ by time beyond a quarter of an hour, and by the highest urgency', () => {
    const one = life('leak', 1, 5)
    expect(shift({ inForce: one, draft: life('leak', 1.2, 5) })).toBeNull()
    expect(shift({ inForce: one, draft: life('leak', 3, 5) })).toEqual({ time: 1, urgency: 0 })
    expect(shift({ inForce: life('leak', 3, 5), draft: one })).toEqual({ time: -1, urgency: 0 })
    expect(shift({ inForce: one, draft: life('leak', 1, 5, { peak: 'within-1h' }) })).toEqual({
      time: 0,
      urgency: 1,
    })
    expect(shift({ inForce: one, draft: null })).toBeNull()
  })

  test('are those that happened where they opened within a quarter of an hour, each once', () => {
    const flag = (id: string, opened: number) => ({
      ...{ id, code: 'leak' as const, drainId: 'd1', nature: 'clinical' as const },
      ...{ urgency: 'within-1h' as const, openedAt: at(opened) },
    })
    const lives = [life('leak', 1, 5), life('leak', 9, null)]
    const same = sameAsHappened([flag('a', 1.1), flag('b', 1.15), flag('c', 12)], lives)
    expect([...same].map(([id, { flag: own }]) => `${id} ${own.id}`)).toEqual(['a leak1'])
  })
})
