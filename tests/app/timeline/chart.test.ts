import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { layoutOf } from '@/app/ui/timeline/layout.ts'
import { placesOf, timelineOption } from '@/app/ui/timeline/option.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { flag } from '../fixtures/flag.ts'
import { manyDays } from '../fixtures/many-days.ts'
import { days, page } from '../fixtures/page.ts'
import { inks, pictureOf } from '../fixtures/picture.ts'
import { type Box, boxesOf, svgOf, wordsOf } from '../fixtures/svg.ts'

const WIDTH = 834
const draw = (
  of: PatientPage,
  ...rest: Parameters<typeof pictureOf> extends [unknown, ...infer R] ? R : never
) => svgOf(pictureOf(of, ...rest), WIDTH)
const withDays = (change: (day: (typeof days)[number], i: number) => object): PatientPage => {
  const changed = page()
  const [output] = changed.assessment.drains
  if (output) output.days = days.map((day, i) => ({ ...day, ...change(day, i) }))
  return changed
}
const edges = [inks.outputBefore, inks.output, inks.hatch as string]
/** Those that stand in the strip of the first output. */
const bars = (svg: string): Box[] =>
  edges
    .flatMap((fill) => boxesOf(svg, fill))
    .filter(({ y }) => y < 245)
    .toSorted((a, b) => a.x - b.x)

describe('the chart as it is drawn', () => {
  const svg = draw(page())

  it('has the bars where they were', () => {
    const expected: Record<string, Box[]> = JSON.parse(
      readFileSync(new URL('expected-bars.json', import.meta.url), 'utf8'),
    )
    for (const [name, boxes] of Object.entries(expected)) {
      const drawn = boxesOf(svg, inks[name as 'output']).filter(({ y }) => y < 245)
      expect(drawn, name).toHaveLength(boxes.length)
      drawn.forEach((box, i) => {
        for (const side of ['x', 'y', 'width', 'height'] as const)
          expect(Math.abs(box[side] - (boxes[i]?.[side] ?? Number.NaN)), `${name} ${i} ${side}`).toBeLessThan(
            2,
          )
      })
    }
  })
  it('has one for each known day, as high as its volume, and none for an unknown one', () => {
    const known = days.flatMap(({ netMl }) => netMl ?? [])
    const heights = bars(svg).map(({ height }) => height)
    expect(heights).toHaveLength(known.length)
    heights.forEach((height, i) => {
      expect(Math.abs(height / (heights[0] ?? 1) - (known[i] ?? 0) / (known[0] ?? 1))).toBeLessThan(0.02)
    })
  })
  it('hatches a day that is not over, and only that', () => {
    expect(boxesOf(svg, inks.hatch as string)).toHaveLength(1)
    expect(wordsOf(svg)).toEqual(expect.arrayContaining(['35 so far', '7/24 h']))
  })
  it('says what its lines are', () => {
    for (const words of ['usual', '410', 'call below', '205', 'fever 38', 'not', 'logged'])
      expect(wordsOf(svg)).toContain(words)
  })
  it('draws a zero as a line, not as a blank', () => {
    const zero = bars(draw(withDays((_, i) => (i === 3 ? { netMl: 0 } : {}))))
    expect(zero).toHaveLength(13)
    expect(Math.min(...zero.map(({ height }) => height))).toBeGreaterThan(1)
  })
  it('holds every temperature that a report may tell, however far out', () => {
    const hot = page()
    for (const { symptoms } of hot.record.reports) if (symptoms) symptoms.temperatureC = 42.1
    const strip = (of: PatientPage) => {
      const { yAxis } = timelineOption(pictureOf(of), WIDTH, inks) as {
        yAxis: { min: number; max: number }[]
      }
      return yAxis.find(({ min }) => min > 20)
    }
    expect(strip(page())).toMatchObject({ min: 35.5, max: 40.5 })
    expect(strip(hot)?.max).toBeGreaterThan(42.1)
    expect(wordsOf(draw(hot))).toContain('42.1')
  })
  it('has what is due as hollow bars in one lane below what is the matter', () => {
    const due = (id: string, code: 'log-missed' | 'dressing-overdue') =>
      flag({ id, code, nature: 'upkeep', urgency: 'within-3d', since: '2026-11-20T12:00:00Z' })
    const all = [flag({ id: 'a' }), due('b', 'log-missed'), due('c', 'dressing-overdue')]
    const drawn = draw(page({ flags: all }))
    const [matter] = boxesOf(drawn, inks.urgency[2])
    // The slider below them has the same ground.
    const below = (y: number) => y > (matter?.y ?? 999) && y < (matter?.y ?? 0) + 20
    const hollow = boxesOf(drawn, inks.sheet).filter(({ y }) => below(y))
    expect(hollow).toHaveLength(2)
    expect(hollow[0]?.y).toBe(hollow[1]?.y)
  })
  it('says where the usual output is the ward’s figure', () => {
    const ward = page()
    for (const output of ward.assessment.drains) output.baselineFrom = 'ward'
    expect(wordsOf(draw(ward))).toContain('ward’s usual')
  })
  it('marks a day of a full bag', () => {
    const full = draw(withDays((_, i) => (i === 3 ? { atLeast: true } : {})))
    expect(wordsOf(full)).toContain('≥ 410')
    expect(wordsOf(svg).join()).not.toContain('≥')
  })
  it('draws a volume that came back negative below the ground', () => {
    const negative = bars(draw(withDays((_, i) => (i === 3 ? { netMl: -60 } : {}))))
    const [before, below] = [negative[2], negative[3]]
    expect(below?.y).toBeCloseTo((before?.y ?? 0) + (before?.height ?? 0), 0)
  })
  it('shows fewer days wider', () => {
    const picture = pictureOf(page())
    const near = bars(svgOf({ ...picture, shown: { from: 7, to: 14 } }, WIDTH))
    expect(near).toHaveLength(7)
    expect((near[0]?.width ?? 0) / (bars(svg)[0]?.width ?? 1)).toBeCloseTo(2, 1)
  })
})

describe('what is drawn on demand', () => {
  it('is the slow-change chart', () => {
    const chart = {
      centreMl: 400,
      limitMl: 295,
      days: [
        { date: '2026-11-22', averageMl: 352 },
        { date: '2026-11-23', averageMl: 318.4 },
      ],
    }
    const slow = new Map([['d1', { drain: 'd1', chart, why: null }]])
    const option = JSON.stringify(timelineOption(pictureOf(page(), 14, 'each', { slow }), WIDTH, inks))
    expect(option).toContain('[[11.5,352],[12.5,318.4]]')
    expect(option).toContain('[[11,295],[13,295]]')
  })
  it('is the usual course of the kind, a box a day between the quartiles', () => {
    const courseDays = [36, 37, 38].map((day) => ({ day, n: 12, median: 400, q1: 350, q3: 450 }))
    const courses = new Map([['d1', { kind: 'nephrostomy' as const, drains: 12, days: courseDays }]])
    const drawn = boxesOf(draw(page(), 14, 'each', { courses }), inks.rule)
    expect(drawn).toHaveLength(3)
    // Placed on 15 October: day 36 is 20 November, the tenth of the axis.
    expect((drawn[0]?.x ?? 0) - (bars(draw(page()))[0]?.x ?? 0)).toBeGreaterThan(400)
  })
})

describe('a drain that dwindles', () => {
  const resolving = page()
  const [output] = resolving.assessment.drains
  if (output)
    output.projection = { date: '2026-11-27', earliest: '2026-11-26', latest: '2026-11-29', method: '' }
  resolving.limits.drains = { d1: [{ mlPerDay: 10, side: 'below', says: 'removal check under 10' }] }
  it('has its expected removal past today, with the earliest and the latest day', () => {
    expect(pictureOf(resolving).axis).toMatchObject({ count: 14, ahead: 6 })
    const said = wordsOf(draw(resolving))
    expect(said).toEqual(expect.arrayContaining(['removal check about 27 Nov', '26 Nov to 29 Nov', 'now']))
  })
})

describe('the strips', () => {
  it.each([1, 3, 10])('of %i drains share their edges, and none overlaps another', (count) => {
    const picture = pictureOf(manyDays(count, 40))
    const { panels, height, sliderTop } = placesOf(picture, WIDTH)
    const end = panels.reduce((bottom, { top, height: own }) => {
      expect(top).toBeGreaterThanOrEqual(bottom)
      return top + own
    }, 0)
    expect(sliderTop).toBeGreaterThan(end + 15)
    expect(height).toBeLessThan(560)
  })
  it('hold together on a narrow screen', () => {
    const { left, right } = layoutOf([{ id: 'd1', title: '' }], { flagLanes: 0, lanes: 1 }, 300)
    expect(300 - left - right).toBeGreaterThan(150)
  })
})

describe('the hard cases', () => {
  it('a patient with no report: nothing is known, and nothing is zero', () => {
    const silent = page()
    silent.record.reports = []
    silent.assessment.drains = []
    silent.limits.drains = {}
    const svg = draw(silent)
    expect(bars(svg)).toEqual([])
    expect(wordsOf(svg)).toContain('not logged')
    expect(wordsOf(svg).join()).not.toContain('usual')
  })
  it('a patient with one report: one bar in part', () => {
    const once = withDays((_, i) => (i === 13 ? {} : { netMl: null, coverage: 0 }))
    expect(bars(draw(once))).toHaveLength(1)
  })
  it('a drain without a baseline has no band', () => {
    const fresh = page()
    if (fresh.assessment.drains[0]) fresh.assessment.drains[0].baselineMlPerDay = null
    expect(boxesOf(draw(page()), inks.band).length - boxesOf(draw(fresh), inks.band).length).toBe(1)
  })
  it('ten drains over two years: each has its bars', () => {
    const many = manyDays(10, 730)
    const svg = draw(many, 'placement')
    const whole = (many.assessment.drains[0]?.days ?? []).filter(({ coverage }) => coverage === 1)
    // The newest whole day is darker; the others of a drain are the outlines of days that touch, two steps for a day.
    // Below the strips of the drains come the points of the tracks, in the same colour.
    const filled = [...svg.matchAll(/<path d="([^"]*)"[^>]*>/g)].flatMap(([tag, path = '']) =>
      tag.includes(`fill="${inks.outputBefore}"`) && path.length > 1000 ? [path] : [],
    )
    const paths = filled.slice(0, 10)
    const count = (path: string, step: string) => path.split(step).length - 1
    expect(paths.map((path) => (count(path, 'L') - count(path, 'M')) / 2)).toEqual(
      Array.from({ length: 10 }, () => whole.length - 1),
    )
  })
  it('days too narrow for gaps do not close over a day of which nothing is known', () => {
    const gap = (unknown: number) => {
      const long = manyDays(1, 730)
      const days = long.assessment.drains[0]?.days ?? []
      for (const day of days.slice(600, 600 + unknown)) Object.assign(day, { netMl: null, coverage: 0 })
      const path = /<path d="([^"]{1000,})"/.exec(draw(long, 'placement'))?.[1] ?? ''
      return path.split('M').length - 1
    }
    expect(gap(1) - gap(0)).toBe(1)
    expect(gap(5) - gap(0)).toBe(1)
  })
  it('names in any script', () => {
    const said = wordsOf(draw(manyDays(3, 20, ['ניקוז כליה', 'مصرف', '肾造瘘管']))).join()
    for (const label of ['ניקוז כליה', 'مصرف', '肾造瘘管']) expect(said).toContain(label)
  })
  it('is drawn without motion', () => {
    const option = JSON.stringify(timelineOption(pictureOf(page()), WIDTH, inks))
    expect(option).toContain('"animation":false')
  })
})
