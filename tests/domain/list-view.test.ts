import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  LIST_COLUMNS,
  ListGroup,
  ListOnly,
  ListSort,
  type ListView,
  readView,
  standardHabit,
  standardView,
  writeView,
} from '../../lib/domain/list-view.ts'

const views: fc.Arbitrary<ListView> = fc.record({
  sort: fc.constantFrom(...ListSort.options),
  group: fc.constantFrom(...ListGroup.options),
  columns: fc.subarray([...LIST_COLUMNS]),
  urgencies: fc
    .subarray(['at-once', 'within-1h', 'within-24h', 'within-3d'] as const)
    .map((list) => [...list]),
  only: fc.constantFrom(...ListOnly.options),
})
const habits = views.map(({ sort, group, columns }) => ({ sort, group, columns }))

describe('a view of the worklist in an address', () => {
  it('is the same list for whoever opens the link, whatever they keep themselves', () => {
    fc.assert(
      fc.property(views, habits, habits, (view, sender, reader) => {
        const query = writeView(view, sender)
        const seen = readView(new URLSearchParams(query), query === '' ? sender : reader)
        expect(seen).toEqual(view)
      }),
    )
  })

  it('is short where it is the standard one, and then opens as the reader keeps it', () => {
    expect(writeView(standardView, standardHabit)).toBe('')
    const habit = { ...standardHabit, sort: 'name' as const }
    expect(readView(new URLSearchParams(), habit)).toEqual({ ...standardView, sort: 'name' })
    expect(writeView(standardView, habit)).toContain('sort=act-by')
  })

  it('passes over words that it does not know', () => {
    const query = new URLSearchParams(
      'sort=colour&group=&columns=found,made-up&urgency=none,at-once&only=1&x=y',
    )
    expect(readView(query, standardHabit)).toEqual({
      ...standardView,
      columns: ['found'],
      urgencies: ['at-once'],
    })
  })

  it('can leave every column out that may be', () => {
    const query = writeView({ ...standardView, columns: [] }, standardHabit)
    expect(readView(new URLSearchParams(query), standardHabit).columns).toEqual([])
  })
})
