import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { csvText } from '../../lib/domain/csv-text.ts'

const readBack = (text: string) => parse(text, { bom: true }) as string[][]

describe('a table as CSV', () => {
  it('comes back as it was, whatever its texts hold', () => {
    const cell = fc.oneof(
      fc.string({ unit: 'grapheme' }).map((text) => `.${text}`),
      fc.constantFrom('', 'Łucja, "Żółć"', 'דנה', '山田\r\n花子', 'a "b" c'),
    )
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1 }), (rows) => {
        expect(readBack(csvText(['one', 'two'], rows))).toEqual([['one', 'two'], ...rows])
      }),
    )
  })
  it('keeps numbers as they are, and what is not known empty', () => {
    expect(csvText(['a', 'b', 'c'], [[-12.5, null, true]])).toBe('\ufeffa,b,c\r\n-12.5,,true\r\n')
  })
  it('runs nothing in a spreadsheet', () => {
    for (const text of ['=1+1', '+1 555', '-1', '@SUM(A1)', '\t=1', '  =1', '\r=1', '＝1+1', '－1'])
      expect(readBack(csvText(['a'], [[text]]))[1]?.[0]?.startsWith("'")).toBe(true)
    expect(readBack(csvText(['a'], [['a=1']]))[1]).toEqual(['a=1'])
  })
})
