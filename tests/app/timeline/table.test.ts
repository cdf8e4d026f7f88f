import { describe, expect, it } from 'vitest'
import { levelTexts, tableRows } from '@/app/ui/timeline/table-rows.ts'
import { manyDays } from '../fixtures/many-days.ts'
import { days, page } from '../fixtures/page.ts'
import { pictureOf } from '../fixtures/picture.ts'

const rows = tableRows(pictureOf(page()))

describe('the table', () => {
  it('has a row for each day of the chart, the newest first', () => {
    expect(rows.map(({ date }) => date)).toEqual([...days.map(({ date }) => date)].reverse())
  })
  it('says the same as the chart', () => {
    expect(rows[0]).toMatchObject({
      output: ['35 mL so far, 7 of 24 h covered'],
      temperature: '06:50 38.6 °C, chills',
      pain: '06:50 6 of 10',
      signs: '06:50 chills',
      site: '06:50 in place',
      flags: 'Output down, within 1 hour',
    })
    expect(rows[7]).toMatchObject({ date: '2026-11-17', output: ['not logged'] })
    expect(rows[1]?.flush).toBe('20:10 10 mL, stiff')
  })
  it('adds up to what the rules worked out', () => {
    const told = rows.flatMap(({ output }) => output.map(Number.parseFloat)).filter((ml) => !Number.isNaN(ml))
    expect(told.reduce((sum, ml) => sum + ml, 0)).toBe(4705) // the fixture’s thirteen days, by hand
  })
  it('has a column for each drain, in any script', () => {
    const labels = ['ניקוז כליה', 'مصرف', '肾造瘘管']
    const picture = pictureOf(manyDays(3, 20, labels))
    expect(tableRows(picture)[0]?.output).toHaveLength(3)
    expect(levelTexts(picture).map(({ text }) => text)).toEqual([
      ...labels.map((label) => `${label}: usual 410 mL a day; call below 205; day 20 since placement.`),
      'Fever from 38 °C.',
    ])
  })
  it('has what was asked for beside it', () => {
    const chart = { centreMl: 400, limitMl: 295, days: [{ date: '2026-11-23', averageMl: 318.4 }] }
    const course = {
      ...{ kind: 'nephrostomy' as const, drains: 12 },
      days: [{ day: 39, n: 11, median: 402.4, q1: 350, q3: 450 }],
    }
    const asked = tableRows(
      pictureOf(page(), 14, 'each', {
        slow: new Map([['d1', { drain: 'd1', chart, why: null }]]),
        courses: new Map([['d1', course]]),
      }),
    )
    expect(asked[1]?.extra).toEqual([
      'slow-change average 318.4, limit 295; usual course here 402 (middle half 350 to 450, 11 drains)',
    ])
    expect(asked[2]?.extra).toEqual([''])
  })
  it('says when removal is expected', () => {
    const resolving = page()
    const [output] = resolving.assessment.drains
    if (output)
      output.projection = { date: '2026-12-02', earliest: '2026-11-28', latest: null, method: 'Theil–Sen' }
    expect(levelTexts(pictureOf(resolving))[0]?.text).toContain(
      'removal check about 2 Dec, 28 Nov to no known end',
    )
  })
})
