import { describe, expect, test } from 'vitest'
import { lanesOf, placeOf } from '../../../app/ui/audit/replay/lanes.ts'
import { estimateText, percent, points, signed } from '../../../app/ui/audit/replay/words.ts'
import type { ReplayedLife, ReplayPatient } from '../../../lib/domain/replay.ts'

const at = (day: number) => `2026-03-${String(day).padStart(2, '0')}T00:00:00.000Z`
const life = (code: 'leak' | 'unwell', from: number, to: number | null): ReplayedLife => ({
  ...{
    code,
    drain: code === 'leak' ? 'd1' : null,
    nature: 'clinical',
    urgency: 'within-1h',
    says: 'Leak reported.',
  },
  ...{ openedAt: at(from), endedAt: to === null ? null : at(to) },
  spans: [{ from: at(from), to: to === null ? null : at(to) }],
})
const courses: ReplayPatient = {
  ...{
    patientId: 'p',
    name: 'Ada Invented',
    birthDate: '1960-05-17',
    recordNumber: 'LF-1',
    timeZone: 'Etc/UTC',
  },
  ...{ drains: [{ id: 'd1', label: 'left kidney' }], from: at(1), until: at(11), calls: [], reports: [] },
  flags: [
    { inForce: life('leak', 2, 4), draft: life('leak', 3, null) },
    { inForce: null, draft: life('unwell', 6, 6) },
  ],
}

describe('both courses as bars', () => {
  test('lie where their days are, a lane for each finding of each drain, what only one has outlined', () => {
    const [leak, unwell] = lanesOf(courses, 100)
    expect(leak).toMatchObject({ code: 'leak', drain: 'd1' })
    expect(leak?.bars).toEqual([
      { side: 'inForce', x: 10, width: 20, rank: 3, isAlone: false },
      { side: 'draft', x: 20, width: 80, rank: 3, isAlone: false },
    ])
    expect(unwell?.bars).toEqual([{ side: 'draft', x: 50, width: 3, rank: 3, isAlone: true }])
  })

  test('stay within the period', () => {
    const place = placeOf(courses, 100)
    expect([place(at(1)), place(at(6)), place('2026-02-01T00:00:00Z'), place(at(30))]).toEqual([
      0, 50, 0, 100,
    ])
  })
})

describe('a number in words', () => {
  test('has its interval and what it rests on, or says why there is none', () => {
    const some = { value: 0.5, low: 0.25, high: 0.75, n: 12 }
    expect(estimateText(some, percent, 'verdicts')).toBe('50% (25% to 75%), 12 verdicts')
    expect(estimateText({ ...some, low: null, high: null }, percent, 'verdicts')).toBe('50%, 12 verdicts')
    expect(estimateText({ ...some, n: 4 }, percent, 'verdicts')).toBe('too few: 4 verdicts')
    expect(estimateText({ value: null, low: null, high: null, n: 0 }, percent, 'events')).toBe(
      'not known: no events',
    )
  })

  test('shows the direction of a change', () => {
    expect([points(0.1), points(-0.1), points(0), signed(3), signed(-3), signed(0)]).toEqual([
      ...['+10 points', '-10 points', '0 points', '+3', '-3', '0'],
    ])
  })
})
