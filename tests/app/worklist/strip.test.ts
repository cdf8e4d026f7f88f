import { describe, expect, it } from 'vitest'
import { stripOf } from '@/app/ui/worklist/strip.ts'
import { row } from '../fixtures/row.ts'

const now = Date.parse('2026-11-24T14:34:00Z')
const zone = 'America/Denver'
const due = (
  patientId: string,
  actBy: string | null,
  urgency: 'at-once' | 'within-1h' | 'within-24h' = 'within-1h',
) => row({ patientId, actBy, urgency })

describe('the strip of the next twelve hours', () => {
  it('gathers what is past at the left with the oldest, and what is later at the right with the next', () => {
    const { overdue, later, marks } = stripOf(
      [
        due('a', '2026-11-24T13:56:00Z'),
        due('b', '2026-11-24T14:34:00Z'),
        due('c', '2026-11-25T04:10:00Z'),
        due('d', '2026-11-26T04:10:00Z'),
      ],
      now,
      zone,
    )
    expect(overdue).toEqual({ count: 2, oldestMs: 38 * 60_000, firstId: 'a' })
    expect(later).toEqual({ count: 2, next: '2026-11-25T04:10:00Z', firstId: 'c' })
    expect(marks).toEqual([])
  })
  it('puts each deadline where it falls', () => {
    const { marks } = stripOf([due('a', '2026-11-24T20:34:00Z'), due('b', '2026-11-25T02:34:00Z')], now, zone)
    expect(marks.map(({ share }) => share)).toEqual([0.5, 1])
  })
  it('gives marks at one time lanes of their own, the sooner urgency first', () => {
    const at = '2026-11-24T20:34:00Z'
    const { marks } = stripOf([due('a', at, 'within-24h'), due('b', at, 'at-once'), due('c', at)], now, zone)
    expect(marks.map(({ patientId, lane }) => [patientId, lane])).toEqual([
      ['b', 0],
      ['c', 1],
      ['a', 2],
    ])
  })
  it('names the clinic’s full hours, also where its offset is none', () => {
    expect(stripOf([], now, zone).hours[0]).toEqual({ share: 26 / 720, text: '08:00' })
    expect(stripOf([], now, 'Asia/Kathmandu').hours[0]?.text).toBe('21:00')
  })
  it('a row without act by has no mark', () => {
    expect(stripOf([due('a', null)], now, zone)).toMatchObject({
      overdue: { count: 0 },
      later: { count: 0 },
      marks: [],
    })
  })
})
