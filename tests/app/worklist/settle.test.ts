import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { absorb, newAtOnce, waitingOf } from '@/app/ui/worklist/settle.ts'

const urgencies = ['at-once', 'within-1h', 'within-24h', 'within-3d'] as const
type Row = { patientId: string; urgency: (typeof urgencies)[number]; name: string }
const row = (patientId: string, urgency: Row['urgency'] = 'within-24h'): Row => ({
  patientId,
  urgency,
  name: patientId,
})
const ids = (rows: readonly Row[]) => rows.map(({ patientId }) => patientId)

/** A list as the server gives it: at-once first. */
const lists = fc
  .uniqueArray(fc.record({ id: fc.integer({ min: 0, max: 12 }), rank: fc.nat({ max: 3 }) }), {
    selector: ({ id }) => id,
  })
  .map((rows) =>
    rows.toSorted((a, b) => a.rank - b.rank).map(({ id, rank }) => row(`p${id}`, urgencies[rank])),
  )

describe('the list while it is read', () => {
  it('stays in its order: what is new waits, what has left keeps its place', () => {
    const settled = [row('a'), row('b'), row('c')]
    const fresh = [row('d'), row('c'), row('a')]
    expect(ids(absorb(settled, fresh))).toEqual(['a', 'b', 'c'])
    expect(ids(waitingOf(settled, fresh))).toEqual(['d'])
  })

  it('tells of a row that waits below its new urgency', () => {
    const settled = [row('a', 'within-1h'), row('b'), row('c', 'within-3d')]
    const fresh = [row('c', 'within-1h'), row('a', 'within-24h'), row('b')]
    expect(ids(absorb(settled, fresh))).toEqual(['a', 'b', 'c'])
    expect(ids(waitingOf(settled, fresh))).toEqual(['c'])
  })

  it('lets what has become at-once come in, or move, to its place', () => {
    const settled = [row('a', 'at-once'), row('b'), row('c')]
    const fresh = [row('a', 'at-once'), row('n', 'at-once'), row('c', 'at-once'), row('b')]
    expect(ids(absorb(settled, fresh))).toEqual(['a', 'n', 'c', 'b'])
    expect(waitingOf(absorb(settled, fresh), fresh)).toEqual([])
  })

  it('never holds an at-once row back, and loses nothing', () => {
    fc.assert(
      fc.property(lists, fc.array(lists, { maxLength: 4 }), (first, later) => {
        let settled: readonly Row[] = first
        for (const fresh of later) {
          const before = settled
          settled = absorb(settled, fresh)
          const waiting = waitingOf(settled, fresh)
          expect(waiting.some(({ urgency }) => urgency === 'at-once')).toBe(false)
          expect(new Set(ids(settled)).size).toBe(settled.length)
          for (const { patientId, urgency } of fresh) {
            const shown = settled.find((row) => row.patientId === patientId)
            const isBelow = shown && urgencies.indexOf(urgency) < urgencies.indexOf(shown.urgency)
            expect(ids(waiting).includes(patientId)).toBe(!shown || isBelow)
          }
          for (const id of ids(before)) expect(ids(settled)).toContain(id)
          const moved = new Set(
            fresh.filter(({ urgency }) => urgency === 'at-once').map(({ patientId }) => patientId),
          )
          const still = (rows: readonly Row[]) => ids(rows).filter((id) => !moved.has(id))
          expect(still(settled)).toEqual(still(before))
        }
      }),
    )
  })

  it('tells who is newly at once, not who was', () => {
    expect(newAtOnce([row('a', 'at-once'), row('b')], [row('a', 'at-once'), row('b', 'at-once')])).toEqual([
      'b',
    ])
    expect(newAtOnce([row('a', 'at-once')], [row('a', 'within-1h')])).toEqual([])
  })
})
