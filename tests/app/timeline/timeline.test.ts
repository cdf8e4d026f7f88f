import { describe, expect, it } from 'vitest'
import { axisOf, isShown, labelEvery, RANGES, xOf } from '@/app/ui/timeline/axis.ts'
import { barText, bottomOf, dayRow, topOf } from '@/app/ui/timeline/days.ts'
import { layoutOf } from '@/app/ui/timeline/layout.ts'
import { timelineOption } from '@/app/ui/timeline/option.ts'
import type { Inks } from '@/app/ui/timeline/series.ts'
import { tableRows } from '@/app/ui/timeline/table-rows.ts'
import { flagBars, tracksOf } from '@/app/ui/timeline/tracks.ts'
import { flag } from '../fixtures/flag.ts'
import { days, NOW, page } from '../fixtures/page.ts'

const now = Date.parse(NOW)
const zone = 'America/Denver'
const axis = axisOf(14, '2026-10-15', now, zone)

describe('the time axis', () => {
  it('ends with today, in whole days of the patient', () => {
    expect(axis).toEqual({ zone, first: '2026-11-11', count: 14 })
    expect(axisOf(14, '2026-10-15', Date.parse('2026-11-24T06:30:00Z'), zone).first).toBe('2026-11-10')
  })
  it('reaches back no further than what is known, and never under 14 days', () => {
    expect(RANGES.map((range) => axisOf(range, '2026-10-15', now, zone).count)).toEqual([14, 30, 41, 41])
    expect(RANGES.map((range) => axisOf(range, '2026-11-23', now, zone).count)).toEqual([14, 14, 14, 14])
    expect(axisOf('all', '2010-01-01', now, zone).count).toBe(730)
  })
  it('places an instant by the patient’s clock, over a clock change too', () => {
    expect(xOf(axis, '2026-11-11T07:00:00Z')).toBe(0)
    expect(xOf(axis, '2026-11-24T19:00:00Z')).toBe(13.5)
    const fall = axisOf(14, '2026-10-01', Date.parse('2026-11-05T12:00:00Z'), zone)
    expect(xOf(fall, '2026-11-02T07:00:00Z') % 1).toBe(0)
    expect(isShown(axis, -0.01)).toBe(false)
  })
  it('is labelled sparsely', () => {
    for (const count of [14, 30, 90, 365, 730])
      expect(count / labelEvery({ ...axis, count })).toBeLessThanOrEqual(8)
  })
})

describe('the days of a drain', () => {
  const row = dayRow(days, axis)
  it('an unknown day is a run of its own, never a zero', () => {
    expect(row.unknown).toEqual([{ from: 6, to: 7 }])
    expect(row.bars).toHaveLength(13)
    expect(row.bars.some(({ netMl }) => netMl === 0)).toBe(false)
  })
  it('runs of unknown days are one', () => {
    const blank = days.map((day, i) => (i > 3 && i < 9 ? { ...day, netMl: null, coverage: 0 } : day))
    expect(dayRow(blank, axis).unknown).toEqual([{ from: 4, to: 9 }])
  })
  it('today is so far, an earlier half-known day in part', () => {
    expect(row.bars.map(barText).slice(-2)).toEqual(['210', '35 so far'])
    const half = days.map((day, i) => (i === 2 ? { ...day, coverage: 0.5 } : day))
    expect(dayRow(half, axis).bars.map(barText)[2]).toBe('390 in part')
  })
  it('days outside of the axis are left out', () => {
    expect(dayRow([{ date: '2026-11-10', netMl: 5, coverage: 1, hours: 24 }], axis)).toEqual({
      bars: [],
      unknown: [],
    })
  })
  it('the scale holds everything, and what came back negative', () => {
    expect(topOf([row], 410)).toBe(500)
    expect(topOf([], null)).toBe(10)
    expect(bottomOf(row)).toBe(0)
    expect(bottomOf(dayRow([{ date: '2026-11-20', netMl: -30, coverage: 1, hours: 24 }], axis))).toBeLessThan(
      -30,
    )
  })
})

describe('the tracks', () => {
  const tracks = tracksOf(page(), axis, now)
  it('count corrected reports as corrected', () => {
    expect(tracks.flush).toHaveLength(1)
    expect(tracks.flush[0]).toMatchObject({ tone: 'alarm', label: 'stiff' })
  })
  it('label what is not as it should be', () => {
    expect(tracks.temperature).toMatchObject([{ value: 38.6, tone: 'alarm', label: '38.6' }])
    expect(tracks.position).toMatchObject([{ tone: 'plain', label: '' }])
    expect(tracks.events).toMatchObject([{ tone: 'staff', label: 'position checked' }])
    expect(tracks.calls).toMatchObject([{ label: 'J. Sund (invented), reached' }])
  })
  it('flags that overlap have lanes of their own, others share one', () => {
    const flags = [
      flag({ id: 'a', openedAt: '2026-11-15T12:00:00Z', state: 'closed', closedAt: '2026-11-16T12:00:00Z' }),
      flag({ id: 'b', openedAt: '2026-11-16T00:00:00Z', state: 'closed', closedAt: '2026-11-18T12:00:00Z' }),
      flag({ id: 'c', openedAt: '2026-11-20T00:00:00Z' }),
      flag({ id: 'd', nature: 'upkeep', openedAt: '2026-11-20T00:00:00Z' }),
      flag({ id: 'e', openedAt: '2026-10-20T00:00:00Z', state: 'ended' }),
    ]
    const steps = [
      {
        flagId: 'e',
        at: '2026-10-21T00:00:00Z',
        kind: 'ended' as const,
        by: null,
        why: '',
        urgency: 'within-24h' as const,
      },
    ]
    expect(flagBars({ flags, steps }, axis, now).map(({ lane }) => lane)).toEqual([0, 1, 0])
  })
})

describe('the chart', () => {
  const inks: Inks = {
    ink: '#1',
    ink2: '#2',
    rule: '#3',
    sheet: '#4',
    output: '#5',
    outputBefore: '#6',
    outputEdge: '#7',
    band: '#8',
    bandEdge: '#9',
    owed: '#a',
    urgency: ['#b', '#c', '#d', '#e'],
    urgencyEdge: '#f',
    urgencyInk: '#0',
    face: 'serif',
    hatch: 'hatch',
  }
  const drawn = (width: number, shown = page()) =>
    JSON.stringify(
      timelineOption({ page: shown, axis, tracks: tracksOf(shown, axis, now), drains: ['d1'], width }, inks),
    )
  it('is drawn without motion, and its tooltip without markup', () => {
    expect(drawn(800)).toContain('"animation":false')
    expect(drawn(800)).toContain('"renderMode":"richText"')
  })
  it('says what its lines are', () => {
    for (const words of ['usual\\n410', 'call below\\n205', 'fever\\n38', 'not\\nlogged', '35 so far'])
      expect(drawn(800)).toContain(words)
  })
  it('a day that is not over is hatched, and only that', () => {
    expect(drawn(800).split('"hatch"')).toHaveLength(2)
  })
  it('draws a drain of which nothing is known', () => {
    const blank = page()
    blank.assessment.drains = []
    blank.limits.drains = {}
    expect(drawn(300, blank)).not.toContain('usual')
  })
  it('all strips share their edges and none overlaps another', () => {
    const { panels, height } = layoutOf(['d1', 'd2', 'd3'], tracksOf(page(), axis, now), 800)
    panels.reduce((bottom, { top, height: own }) => {
      expect(top).toBeGreaterThanOrEqual(bottom)
      return top + own
    }, 0)
    expect(height).toBeGreaterThan((panels.at(-1)?.top ?? 0) + 20)
  })
})

describe('the table', () => {
  const rows = tableRows(page(), axis, tracksOf(page(), axis, now), ['d1'])
  it('has a row for each day of the chart, the newest first', () => {
    expect(rows.map(({ date }) => date)).toEqual([...days.map(({ date }) => date)].reverse())
  })
  it('says the same as the chart', () => {
    expect(rows[0]).toMatchObject({
      output: ['35 mL so far'],
      temperature: '38.6 °C, chills',
      pain: '6 of 10',
      site: 'in place',
    })
    expect(rows[7]).toMatchObject({ date: '2026-11-17', output: ['not logged'] })
    expect(rows[1]?.flush).toBe('10 mL, stiff')
  })
})
