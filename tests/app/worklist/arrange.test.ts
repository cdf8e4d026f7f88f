import { describe, expect, it } from 'vitest'
import { arrange } from '@/app/ui/worklist/arrange.ts'
import { type ListView, standardView } from '@/lib/domain/list-view.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { flag } from '../fixtures/flag.ts'
import { row, rowDrain } from '../fixtures/row.ts'

const until = '2026-11-24T15:00:00Z'
const rows: WorklistRow[] = [
  row({ patientId: 'a', name: 'Zoe Ash (invented)', urgency: 'at-once', lastHeardAt: null }),
  row({ patientId: 'b', name: 'Élan Birch (invented)', hold: { staffId: 'me', name: 'R. Okafor', until } }),
  row({
    patientId: 'c',
    name: 'Cal Cedar (invented)',
    recordNumber: '40-1219',
    urgency: 'within-24h',
    lastHeardAt: '2026-11-20T13:56:00Z',
    drains: [rowDrain(), rowDrain({ id: 'd2', kind: 'pleural', label: 'right chest' })],
    flags: [flag({ code: 'leak', drain: 'd2' })],
    hold: { staffId: 'other', name: 'B. Sol', until },
  }),
  row({ patientId: 'u', name: 'Una Upkeep (invented)', part: 'upkeep', urgency: 'within-3d' }),
]
const show = (part: Partial<ListView> = {}, wanted = '', upkeepOpen = false) =>
  arrange(rows, { view: { ...standardView, ...part }, wanted, selfId: 'me', upkeepOpen })
const lines = (...ask: Parameters<typeof show>) =>
  show(...ask).lines.map((line) => (line.kind === 'head' ? `${line.text} ${line.count}` : line.id))

describe('the lines of the worklist', () => {
  it('are as served, upkeep closed below until it is opened', () => {
    expect(lines()).toEqual(['a', 'b', 'c', 'upkeep'])
    expect(lines({}, '', true)).toEqual(['a', 'b', 'c', 'upkeep', 'u'])
    expect(show().hidden).toEqual({ count: 0, by: [], atOnce: [] })
  })

  it.each([
    ['name', ['c', 'b', 'a']],
    ['heard', ['a', 'c', 'b']],
    ['kind', ['a', 'b', 'c']],
  ] as const)('sort by %s', (sort, order) => {
    expect(lines({ sort }).slice(0, 3)).toEqual(order)
  })

  it.each([
    ['urgency', ['At once 1', 'a', 'Within 1 hour 1', 'b', 'Within 24 hours 1', 'c', 'upkeep']],
    ['with', ['With you 1', 'b', 'Free 1', 'a', 'With B. Sol 1', 'c', 'upkeep']],
    ['kind', ['Nephrostomy 2', 'a', 'b', 'Pleural 1', 'c', 'upkeep']],
  ] as const)('group by %s, each patient once', (group, order) => {
    expect(lines({ group })).toEqual(order)
  })

  it('name what a filter hides, and who of them cannot wait', () => {
    expect(show({ urgencies: ['within-1h'], only: 'mine' }, 'birch').hidden).toEqual({
      count: 3,
      by: ['‘Within 1 hour’', '‘With me’', 'Find'],
      atOnce: ['Zoe Ash (invented)'],
    })
    expect(lines({ only: 'free' })).toEqual(['a', 'upkeep'])
    expect(lines({ only: 'upkeep' })).toEqual(['upkeep', 'u'])
  })

  it.each([
    ['40-12', ['c', 'upkeep']],
    ['pleural', ['c', 'upkeep']],
    ['RIGHT chest', ['c', 'upkeep']],
    ['leak', ['c', 'upkeep']],
    ['output-decline ash', ['a', 'upkeep']],
    ['una', ['upkeep', 'u']],
    ['nobody', ['upkeep']],
  ])('find %j', (wanted, order) => {
    expect(lines({}, wanted)).toEqual(order)
  })

  it('never lose a row: shown, hidden by name of the filter, or in closed upkeep', () => {
    for (const urgency of ['at-once', 'within-3d'] as const)
      for (const only of ['all', 'mine', 'free', 'upkeep'] as const) {
        const { rowIds, hidden } = show({ urgencies: [urgency], only }, '', true)
        expect(rowIds.length + hidden.count).toBe(rows.length)
      }
  })
})
