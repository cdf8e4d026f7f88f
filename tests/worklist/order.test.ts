import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Urgency } from '../../lib/domain/words.ts'
import { compareRows, isOverdue, partOf, tierOf } from '../../lib/worklist/order.ts'

const NOW = '2026-03-02T12:00:00.000Z'
const hour = (hours: number) => new Date(Date.parse(NOW) + hours * 3_600_000).toISOString()

type Sketch = {
  id?: string
  urgency?: Urgency
  actBy?: number | null
  since?: number
  part?: 'clinical' | 'upkeep'
}

function row({ id = 'p', urgency = 'within-24h', actBy = 5, since = -1, part = 'clinical' }: Sketch) {
  const due = actBy === null ? null : hour(actBy)
  return { patientId: id, urgency, actBy: due, since: hour(since), overdue: isOverdue(due, NOW), part }
}
const order = (...rows: ReturnType<typeof row>[]) =>
  rows.toSorted(compareRows).map(({ patientId }) => patientId)

describe('the worklist', () => {
  it('goes by urgency first', () => {
    expect(
      order(
        row({ id: 'c', urgency: 'within-3d' }),
        row({ id: 'a', urgency: 'at-once' }),
        row({ id: 'b', urgency: 'within-1h' }),
      ),
    ).toEqual(['a', 'b', 'c'])
  })

  it('then by act by, then since, then patient id', () => {
    expect(order(row({ id: 'b', actBy: 6 }), row({ id: 'a', actBy: 7 }))).toEqual(['b', 'a'])
    expect(order(row({ id: 'b', since: -3 }), row({ id: 'a', since: -2 }))).toEqual(['b', 'a'])
    expect(order(row({ id: 'b' }), row({ id: 'a' }))).toEqual(['a', 'b'])
  })

  it('puts a row past its act by with the tier above', () => {
    expect(
      order(
        row({ id: 'hour', urgency: 'within-1h', actBy: 0.5 }),
        row({ id: 'late', urgency: 'within-24h', actBy: -1 }),
      ),
    ).toEqual(['late', 'hour'])
    expect(
      order(
        row({ id: 'day', urgency: 'within-24h', actBy: 5 }),
        row({ id: 'late', urgency: 'within-3d', actBy: -1 }),
      ),
    ).toEqual(['late', 'day'])
  })

  it('never puts one into at-once', () => {
    expect(
      order(
        row({ id: 'late', urgency: 'within-1h', actBy: -50 }),
        row({ id: 'now', urgency: 'at-once', actBy: 0 }),
      ),
    ).toEqual(['now', 'late'])
    expect(tierOf({ urgency: 'at-once', overdue: true })).toBe(4)
    expect(tierOf({ urgency: 'none', overdue: true })).toBe(0)
  })

  it('is past its act by only after it', () => {
    expect([isOverdue(NOW, NOW), isOverdue(hour(-0.001), NOW), isOverdue(null, NOW)]).toEqual([
      false,
      true,
      false,
    ])
  })

  it('groups upkeep below, however late', () => {
    expect(
      order(row({ id: 'u', part: 'upkeep', actBy: -90 }), row({ id: 'c', urgency: 'within-3d' })),
    ).toEqual(['c', 'u'])
  })

  it('has one order, whatever it starts from', () => {
    const sketch = fc.record({
      urgency: fc.constantFrom<Urgency>('at-once', 'within-1h', 'within-24h', 'within-3d'),
      actBy: fc.option(fc.integer({ min: -3, max: 3 })),
      since: fc.integer({ min: -3, max: 0 }),
      part: fc.constantFrom('clinical' as const, 'upkeep' as const),
    })
    fc.assert(
      fc.property(fc.array(sketch, { maxLength: 12 }), (sketches) => {
        const rows = sketches.map((one, i) => row({ ...one, id: `p${i}` }))
        expect(order(...rows.toReversed())).toEqual(order(...rows))
      }),
    )
  })
})

describe('the part of a row', () => {
  const old = [{ id: 'd1', placedAt: hour(-24 * 30) }]
  const fresh = [{ id: 'd1', placedAt: hour(-24 * 6) }]
  const upkeep = { nature: 'upkeep' as const, drain: 'd1' }
  const base = { flags: [upkeep], drains: old, onlyKidney: false, now: NOW }

  it.each([
    ['upkeep alone', base, 'upkeep'],
    [
      'a clinical flag beside it',
      { ...base, flags: [upkeep, { nature: 'clinical' as const, drain: null }] },
      'clinical',
    ],
    ['the first 7 days after placement', { ...base, drains: fresh }, 'clinical'],
    ['the eighth day', { ...base, drains: [{ id: 'd1', placedAt: hour(-24 * 7) }] }, 'upkeep'],
    ['another drain that is new', { ...base, drains: [...old, { id: 'd2', placedAt: hour(-5) }] }, 'upkeep'],
    [
      'upkeep of the patient as a whole with a new drain',
      { ...base, flags: [{ ...upkeep, drain: null }], drains: fresh },
      'clinical',
    ],
    ['an only kidney', { ...base, onlyKidney: true }, 'clinical'],
    ['a promised call without a flag', { ...base, flags: [] }, 'clinical'],
  ])('%s', (_name, input, part) => {
    expect(partOf(input)).toBe(part)
  })
})
