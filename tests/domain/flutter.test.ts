import { describe, expect, it } from 'vitest'
import type { FlagStepKind } from '../../lib/domain/flag.ts'
import { flutters } from '../../lib/domain/flutter.ts'

const iso = (hours: number) => new Date(Date.parse('2026-03-02T08:00:00Z') + hours * 3_600_000).toISOString()
const life = (id: string, drain: string | null = 'd1') => ({ id, code: 'leak' as const, drain })
const step = (flagId: string, kind: FlagStepKind, hours: number) => ({ flagId, kind, at: iso(hours) })
const cycle = (id: string, from: number, to: number, end: FlagStepKind = 'ended') => [
  step(id, 'opened', from),
  step(id, end, to),
]

describe('a flag flutters', () => {
  it('that opens and ends three times in 72 h, as one', () => {
    const flags = [life('a'), life('b'), life('c')]
    const steps = [...cycle('a', 0, 5), ...cycle('b', 20, 30), ...cycle('c', 60, 71.9)]
    expect(flutters(flags, steps)).toEqual([
      { code: 'leak', drain: 'd1', flagIds: ['a', 'b', 'c'], times: 3, from: iso(0), until: iso(71.9) },
    ])
  })
  it('not at 72 h: the window ends at its time', () => {
    expect(
      flutters(
        [life('a'), life('b'), life('c')],
        [...cycle('a', 0, 5), ...cycle('b', 20, 30), ...cycle('c', 60, 72)],
      ),
    ).toEqual([])
  })
  it('not at two times, nor over several drains, nor where a person closed it', () => {
    expect(flutters([life('a'), life('b')], [...cycle('a', 0, 5), ...cycle('b', 20, 30)])).toEqual([])
    const over = [life('a', 'd1'), life('b', 'd2'), life('c', 'd1')]
    const steps = [...cycle('a', 0, 5), ...cycle('b', 20, 30), ...cycle('c', 40, 50)]
    expect(flutters(over, steps)).toEqual([])
    const closed = [...cycle('a', 0, 5), ...cycle('b', 20, 30, 'closed'), ...cycle('c', 40, 50)]
    expect(flutters([life('a'), life('b'), life('c')], closed)).toEqual([])
  })
  it('that keeps its place: owed and held again is ending and opening', () => {
    const steps = [
      ...cycle('a', 0, 5, 'owed'),
      step('a', 'held-again', 10),
      step('a', 'owed', 15),
      step('a', 'held-again', 20),
      step('a', 'owed', 25),
      step('a', 'held-again', 30),
    ]
    expect(flutters([life('a')], steps)).toMatchObject([{ flagIds: ['a'], times: 3 }])
  })
  it('with the one that stands now, if it opened soon enough after', () => {
    const flags = ['a', 'b', 'c', 'd'].map((id) => life(id))
    const three = [...cycle('a', 0, 5), ...cycle('b', 10, 15), ...cycle('c', 20, 25)]
    expect(flutters(flags, [...three, step('d', 'opened', 81.9)])[0]?.flagIds).toEqual(['a', 'b', 'c', 'd'])
    expect(flutters(flags, [...three, step('d', 'opened', 82)])[0]?.flagIds).toEqual(['a', 'b', 'c'])
  })
  it('on and on is one flutter; after a calm it is another', () => {
    const ids = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => `f${n}`)
    const starts = [0, 10, 20, 30, 40, 400, 410, 420]
    const steps = ids.flatMap((id, i) => cycle(id, starts[i] ?? 0, (starts[i] ?? 0) + 5))
    expect(
      flutters(
        ids.map((id) => life(id)),
        steps,
      ).map(({ times }) => times),
    ).toEqual([5, 3])
  })
})
