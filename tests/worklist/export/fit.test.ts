import { describe, expect, it } from 'vitest'
import { fitted, type Section } from '../../../lib/worklist/export/fit.ts'
import type { Line } from '../../../lib/worklist/print/lines.ts'

/** Each line as high as its size. */
const heightOf = ({ size = 9 }: Line) => size
const section = (title: string, count: number, least = 1): Section => ({
  title,
  items: Array.from({ length: count }, (_, i) => [{ text: `${title} ${i}` }]),
  least,
})
const texts = (room: number, ...sections: Section[]) =>
  fitted([{ text: 'head' }], sections, room, heightOf).map(({ text }) => text)

describe('what stands on a page of one height', () => {
  it('is all of it where it fits', () => {
    expect(texts(100, section('a', 2))).toEqual(['head', 'a', 'a 0', 'a 1'])
  })
  it('is smaller before anything is left out', () => {
    const lines = fitted([], [section('a', 10)], 90, heightOf)
    expect(lines).toHaveLength(11)
    expect(lines[1]?.size).toBeLessThan(9)
  })
  it('leaves out the end of the longest part, and says how much', () => {
    const told = texts(100, section('long', 20), section('short', 2))
    expect(told).toContain('short 1')
    expect(told).toContain('long 0')
    const left = told.filter((text) => text.startsWith('long ')).length
    expect(told).toContain(`${20 - left} more left out here: on the screen and in the CSV files.`)
  })
  it('never goes below the page, even where its least does not fit', () => {
    const lines = fitted([], [section('a', 40, 40)], 60, heightOf)
    expect(lines.reduce((sum, line) => sum + heightOf(line), 0)).toBeLessThanOrEqual(60)
    expect(lines.at(-1)?.text).toBe('More did not fit on this page: see the screen.')
  })
})
