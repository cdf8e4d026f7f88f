import { describe, expect, it } from 'vitest'
import { axisOf } from '@/app/ui/timeline/axis.ts'
import { outputsOf } from '@/app/ui/timeline/outputs.ts'
import { noneSays, reachSays } from '@/app/ui/timeline/reach.ts'
import type { Callback } from '@/lib/domain/callback.ts'
import { addDays } from '@/lib/domain/local-time.ts'
import { MOST_CALLS, type PatientPage } from '@/lib/domain/patient-page.ts'
import { NOW, page } from '../fixtures/page.ts'

const PLACED = '2025-03-02'
/** In our care for longer than the page reaches back, which is from 20 October 2025, 07:34 in Denver. */
const long = (part: Partial<PatientPage> = {}): PatientPage => {
  const of = page(part)
  of.record.enrolledAt = `${PLACED}T17:00:00Z`
  for (const drain of of.record.drains) drain.placedAt = `${PLACED}T16:00:00Z`
  return of
}
const says = (of: PatientPage, range: 14 | 90 | 'placement', placed = PLACED) =>
  reachSays(of, axisOf(range, placed, Date.parse(of.asOf), of.record.timeZone))

/** So many calls, one a day, the latest today. */
const calls = (count: number): Callback[] => {
  const [call] = page().callbacks
  if (!call) throw new Error('the fixture has a call')
  return Array.from({ length: count }, (_, i) => ({
    ...call,
    id: `k${i}`,
    at: `${addDays(NOW.slice(0, 10), -i)}T12:00:00Z`,
  }))
}

describe('how far back a timeline is drawn', () => {
  it('is said where the axis begins before the first whole day of which everything is there', () => {
    expect(says(long(), 'placement')).toEqual([
      'Shown are reports and past flags from 21 Oct 2025 on. Earlier ones are on record, not here.',
    ])
    expect(says(long(), 'placement', '2025-10-20')).toHaveLength(1)
    expect(says(long(), 'placement', '2025-10-21')).toEqual([])
    expect(says(long(), 90)).toEqual([])
  })

  it('is said once for all kinds, the calls by their number', () => {
    const often = long({ callbacks: calls(MOST_CALLS) })
    expect(says(often, 'placement')).toEqual([
      'Shown are reports and past flags from 21 Oct 2025 on; the last 200 calls from 9 May 2026 on. Earlier ones are on record, not here.',
    ])
    expect(says(often, 90)).toEqual([])
    expect(says(long({ callbacks: calls(MOST_CALLS - 1) }), 'placement').join()).not.toContain('calls')
  })

  it('leaves no day before it that would look as if nobody had written', () => {
    const [output] = outputsOf(long(), 'each')
    expect(output?.days[0]?.date).toBe('2025-10-21')
    expect(output?.placed).toBe(PLACED)
  })
})

describe('that there is nothing', () => {
  it('is said of as long as the page reaches back', () => {
    expect(noneSays(page())).toBe('None so far.')
    expect(noneSays(long())).toBe('None since 21 Oct 2025. Earlier ones are not here.')
    const opened = long({ leftOut: { before: '2026-10-25', reports: 700 } as PatientPage['leftOut'] })
    expect(noneSays(opened)).toBe('None since 25 Oct 2026. Earlier ones are not here.')
  })
})
