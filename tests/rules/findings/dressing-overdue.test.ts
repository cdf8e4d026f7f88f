import { describe, expect, it } from 'vitest'
import type { Drain } from '../../../lib/domain/record.ts'
import { at, dressing, event, finding, judged, record, times, urgency } from '../../support/build.ts'

const every48: { plan: Partial<Drain['plan']> } = { plan: { dressingEveryHours: 48 } }
const overdue = (of: ReturnType<typeof record>, hours: number) => urgency('dressing-overdue', of, hours)

describe('a bad dressing', () => {
  it.each(['damp', 'soiled', 'loosened', 'off'] as const)(
    'that is %s and was not changed is clinical, within a day',
    (state) => {
      const of = record({}, [dressing(10, { found: state })])
      const found = finding('dressing-overdue', of, 12)
      expect([found?.urgency, found?.nature]).toEqual(['within-24h', 'clinical'])
      expect(times(found)).toEqual({ since: 10, actBy: 34 })
    },
  )
  it('is none where it was clean, or changed then or later', () => {
    expect(overdue(record({}, [dressing(10, { found: 'clean' })]), 12)).toBe('none')
    expect(overdue(record({}, [dressing(10, { found: 'damp', changed: true })]), 12)).toBe('none')
    expect(overdue(record({}, [dressing(10, { found: 'damp' }), dressing(11, { changed: true })]), 12)).toBe(
      'none',
    )
    expect(overdue(record({}, [dressing(10, { found: 'damp' }), dressing(11, { found: 'clean' })]), 12)).toBe(
      'none',
    )
  })
  it('stands where the change was before', () => {
    expect(overdue(record({}, [dressing(9, { changed: true }), dressing(10, { found: 'off' })]), 12)).toBe(
      'within-24h',
    )
  })
  it.each(['exchanged', 'replaced', 'placed', 'uncapped', 'removed'] as const)(
    'ends with the tube %s',
    (type) => {
      expect(overdue(record({}, [dressing(10, { found: 'off' })], [event(12, type)]), 12)).toBe('none')
    },
  )
})

describe('an overdue change', () => {
  it('is 12 h later than the plan: a reminder, within three days; one interval later within a day', () => {
    // 48 + 12 = 60 h after the change at hour 10; 48 + 48 = 96 h after it.
    const of = record(every48, [dressing(10, { changed: true })])
    expect([overdue(of, 69.9), overdue(of, 70), overdue(of, 105.9), overdue(of, 106)]).toEqual([
      'none',
      'within-3d',
      'within-3d',
      'within-24h',
    ])
    expect(times(finding('dressing-overdue', of, 80))).toEqual({ since: 70, actBy: 142 })
    expect(times(finding('dressing-overdue', of, 110))).toEqual({ since: 106, actBy: 130 })
    expect(finding('dressing-overdue', of, 80)?.nature).toBe('upkeep')
  })
  it('counts from the later of new tube and enrolment where no change came since', () => {
    const enrolled = record(every48, [], [], { enrolledAt: at(100) })
    expect([overdue(enrolled, 159.9), overdue(enrolled, 160)]).toEqual(['none', 'within-3d'])
    const renewed = record(every48, [dressing(10, { changed: true })], [event(30, 'exchanged')])
    expect([overdue(renewed, 89.9), overdue(renewed, 90)]).toEqual(['none', 'within-3d'])
    expect(finding('dressing-overdue', renewed, 91)?.evidence).toMatchObject([{ report: null, at: at(30) }])
  })
  it('is not put off by an uncapping, or by a look at the dressing', () => {
    expect(overdue(record(every48, [], [event(30, 'uncapped')]), 60)).toBe('within-3d')
    expect(overdue(record(every48, [dressing(30, { found: 'clean', skin: 'intact' })]), 60)).toBe('within-3d')
  })
  it('within a day at once, where the interval is shorter than the 12 h', () => {
    // Every 8 h: overdue at 20 h, when the further interval, 16 h, is over too.
    const of = record({ plan: { dressingEveryHours: 8 } })
    expect([overdue(of, 19.9), overdue(of, 20)]).toEqual(['none', 'within-24h'])
  })
  it('gives way to a bad dressing', () => {
    expect(finding('dressing-overdue', record(every48, [dressing(70, { found: 'damp' })]), 71)).toMatchObject(
      { urgency: 'within-24h', nature: 'clinical' },
    )
  })
  it('says when to look again', () => {
    const of = record({ plan: { dressingEveryHours: 8, logEveryHours: 8784 } }, [
      dressing(1, { changed: true }),
    ])
    expect(judged(of, 2).nextCheckAt).toBe(at(21))
  })
})
