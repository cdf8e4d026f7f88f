import { describe, expect, it } from 'vitest'
import { dayLines } from '@/app/ui/timeline/day-text.ts'
import { flagSpans } from '@/app/ui/timeline/flag-spans.ts'
import { happeningsOf } from '@/app/ui/timeline/happenings.ts'
import { pointerText, wrapped } from '@/app/ui/timeline/pointer-text.ts'
import type { Flag, FlagStepKind } from '@/lib/domain/flag.ts'
import { OrdersVersion } from '@/lib/domain/patient-page.ts'
import { flag } from '../fixtures/flag.ts'
import { NOW, page } from '../fixtures/page.ts'
import { pictureOf } from '../fixtures/picture.ts'

const told = happeningsOf(page())

describe('what happened', () => {
  it('counts corrected reports as corrected', () => {
    expect(told.flush).toHaveLength(1)
    expect(told.flush[0]).toMatchObject({ tone: 'alarm', label: 'stiff', text: '10 mL, stiff' })
  })
  it('stands on the patient’s own day and time', () => {
    expect(told.flush[0]).toMatchObject({ date: '2026-11-23', time: '20:10' })
    expect(told.temperature[0]).toMatchObject({ date: '2026-11-24', time: '06:50' })
  })
  it('says what is not as it should be', () => {
    expect(told.temperature).toMatchObject([{ value: 38.6, tone: 'alarm', label: '38.6' }])
    expect(told.signs).toMatchObject([{ tone: 'alarm', label: 'chills' }])
    expect(told.site).toMatchObject([{ tone: 'plain', label: '' }])
    expect(told.calls).toMatchObject([{ label: 'J. Sund (invented), reached' }])
  })
  it('has the placement among the events, once', () => {
    expect(told.events.map(({ label }) => label)).toEqual(['placed', 'position checked'])
    const twice = page()
    twice.record.staffEvents = [{ at: '2026-10-15T16:00:00Z', drain: 'd1', type: 'placed' }]
    expect(happeningsOf(twice).events).toHaveLength(1)
  })
  it('has other orders and each own threshold once, with who and why', () => {
    const override = {
      ...{ name: 'declineRatio', value: 0.4, by: 'R. Okafor (invented)' },
      ...{ at: '2026-11-18T16:00:00Z', why: 'low since the start' },
    }
    const version = (part: object) =>
      OrdersVersion.parse({
        ...{ version: 1, validFrom: '2026-10-15T16:00:00Z', recordedAt: '2026-10-15T16:00:00Z' },
        ...{ by: 'R. Okafor (invented)', byId: 's1', why: null, changes: [], overrides: [] },
        ...{ vessel: null, flushAt: null, dressingType: null, removalPlan: null },
        ...part,
      })
    const changed = page({
      orders: {
        d1: [
          version({
            version: 3,
            validFrom: '2026-11-20T16:00:00Z',
            changes: ['flush every 12 h'],
            overrides: [override],
          }),
          version({ version: 2, validFrom: '2026-11-18T16:00:00Z', why: 'low', overrides: [override] }),
          version({}),
        ],
      },
    })
    expect(happeningsOf(changed).events.map(({ text }) => text)).toEqual([
      'placed',
      'position checked',
      'orders changed: (R. Okafor (invented): low)',
      'threshold changed: call below, share of usual 0.4 (R. Okafor (invented): low since the start)',
      'orders changed: flush every 12 h (R. Okafor (invented))',
    ])
  })
  it('has notes beside the calls, but none that was taken back', () => {
    const note = { id: 'n1', at: NOW, by: 'J. Sund (invented)', byId: 's2', text: 'x'.repeat(300) }
    const noted = page({
      notes: [
        { ...note, undoneAt: null, undoneBy: null },
        { ...note, id: 'n2', undoneAt: NOW, undoneBy: 'J. Sund (invented)' },
      ],
    })
    const { calls } = happeningsOf(noted)
    expect(calls.map(({ label }) => label)).toEqual(['J. Sund (invented), reached', 'note'])
    expect(calls[1]?.text.length).toBeLessThan(200)
  })
})

describe('flags', () => {
  it('that overlap have lanes of their own, others share one', () => {
    const flags = [
      flag({ id: 'a', openedAt: '2026-11-15T12:00:00Z', state: 'closed', closedAt: '2026-11-16T12:00:00Z' }),
      flag({ id: 'b', openedAt: '2026-11-16T00:00:00Z', state: 'closed', closedAt: '2026-11-18T12:00:00Z' }),
      flag({ id: 'c', openedAt: '2026-11-20T00:00:00Z' }),
      flag({ id: 'd', nature: 'upkeep', openedAt: '2026-11-20T00:00:00Z' }),
      flag({ id: 'e', openedAt: '2026-10-20T00:00:00Z', state: 'ended' }),
    ]
    const steps = [
      {
        ...{ flagId: 'e', at: '2026-10-21T00:00:00Z', kind: 'ended' as const },
        ...{ by: null, why: '', urgency: 'within-24h' as const },
      },
    ]
    const spans = flagSpans({ ...page(), flags, steps })
    expect(spans.map(({ lane, stands, isUpkeep }) => [lane, stands, isUpkeep])).toEqual([
      [0, false, false],
      [0, false, false],
      [1, false, false],
      [0, true, false],
      [2, true, true],
    ])
    expect(spans[0]?.until.date).toBe('2026-10-20') // 21 October 00:00 UTC is the evening before in Denver
  })
})

describe('a flag over its life', () => {
  const day = (n: number) => `2026-11-${n}T12:00:00Z`
  const step = (n: number, kind: FlagStepKind) => ({
    ...{ flagId: 'a', at: day(n), kind, by: null, why: '', urgency: 'within-1h' as const },
  })
  const spansOf = (part: Partial<Flag>, steps: ReturnType<typeof step>[]) =>
    flagSpans({ ...page(), flags: [flag({ id: 'a', openedAt: day(10), ...part })], steps }).map(
      ({ from, until, stands }) => [from.date.slice(8), until.date.slice(8), stands],
    )
  const closed = (n: number) => ({ state: 'closed' as const, closedAt: day(n) })

  it('did not stand between a close and its return', () => {
    const steps = [step(10, 'opened'), step(12, 'closed'), step(18, 'returned'), step(19, 'closed')]
    expect(spansOf(closed(19), steps)).toEqual([
      ['10', '12', false],
      ['18', '19', false],
    ])
    expect(spansOf({}, steps.slice(0, 3)).at(-1)).toEqual(['18', '24', true])
  })
  it('is drawn from its return where its earlier steps lie farther back than the page reaches', () => {
    expect(spansOf({}, [step(18, 'returned')])).toEqual([['18', '24', true]])
    const steps = [step(18, 'returned'), step(19, 'closed'), step(21, 'returned')]
    expect(spansOf({}, steps)).toEqual([
      ['18', '19', false],
      ['21', '24', true],
    ])
  })
  it('stood on where its end was taken back', () => {
    const steps = [step(10, 'opened'), step(12, 'ended'), step(13, 'undone')]
    expect(spansOf({}, steps)).toEqual([['10', '24', true]])
    expect(spansOf(closed(20), [...steps, step(20, 'closed')])).toEqual([['10', '20', false]])
  })
  it('ends with what had opened it', () => {
    expect(spansOf({ state: 'ended' }, [step(10, 'opened'), step(11, 'undone')])).toEqual([
      ['10', '11', false],
    ])
  })
  it('stays closed where only its time to look again was corrected', () => {
    const steps = [step(10, 'opened'), step(12, 'closed'), step(13, 'corrected')]
    expect(spansOf(closed(12), steps)).toEqual([['10', '12', false]])
    expect(spansOf(closed(20), [...steps, step(18, 'returned'), step(20, 'closed')])).toHaveLength(2)
  })
})

describe('a day in words', () => {
  const picture = pictureOf(page())
  it('has the net output with the hours that are known, and every track', () => {
    expect(dayLines(picture, 13)).toEqual([
      'Tue 24 Nov',
      'net 35 mL so far, 7 of 24 h covered',
      'Temperature: 06:50 38.6 °C, chills',
      'Pain: 06:50 6 of 10',
      'Signs: 06:50 chills',
      'Site: 06:50 in place',
      'Flags: Output down, within 1 hour',
    ])
  })
  it('is empty of numbers where nothing is known', () => {
    expect(dayLines(picture, 6)).toEqual(['Tue 17 Nov', 'not logged'])
  })
  it('at the pointer has the flags of its hour, with their times', () => {
    expect(pointerText(picture, 13 + 7.5 / 24)).toContain(
      'Flags at 07:00\nOutput down, within 1 hour: Tue 24 Nov, 07:00 to now',
    )
    expect(pointerText(picture, 13.1)).not.toContain('Output down')
  })
  it('is broken into short lines', () => {
    const lines = wrapped(`Calls and notes: ${'a word '.repeat(40)}`)
    expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(62)
    expect(
      lines
        .map((line) => line.trim())
        .join(' ')
        .replaceAll('  ', ' '),
    ).toContain('a word a word')
    expect(wrapped('x'.repeat(200)).length).toBeGreaterThan(2)
  })
})
