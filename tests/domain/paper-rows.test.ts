import { describe, expect, it } from 'vitest'
import { orderOf, readDate, readTime } from '../../lib/domain/paper-dates.ts'
import { pasted, tableOf } from '../../lib/domain/paper-paste.ts'
import { readRows } from '../../lib/domain/paper-rows.ts'
import {
  cellOfRow,
  emptyRow,
  type PaperAnswers,
  type PaperColumn,
  withCell,
} from '../../lib/domain/paper-sheet.ts'

const unasked: PaperAnswers = { volumeUnit: null, temperatureUnit: null, dateOrder: null }
const row = (cells: Partial<Record<PaperColumn, string>>) =>
  Object.entries({ date: '2026-03-02', time: '8:05', ...cells }).reduce(
    (all, [column, text]) => withCell(all, column as PaperColumn, text),
    emptyRow(),
  )
const one = (cells: Partial<Record<PaperColumn, string>>, answers: Partial<PaperAnswers> = {}) =>
  readRows([row(cells)], { ...unasked, ...answers })
const value = (column: Parameters<typeof one>[0], answers = {}) => one(column, answers).lines[0]?.values

describe('a paste', () => {
  it('is cut by tab, comma or semicolon, with cells in quotes', () => {
    expect(tableOf('a\tb\r\n1\t2')).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ])
    expect(tableOf('a,"b, ""c""\nd"\n\n,\n1,2\n')).toEqual([
      ['a', 'b, "c"\nd'],
      ['1', '2'],
    ])
    expect(tableOf('a;b\n1;2,5')[1]).toEqual(['1', '2,5'])
    expect(tableOf('')).toEqual([])
  })

  it('is laid by its heading, whatever the order, and says what has no column', () => {
    const { rows, left } = pasted('Time,Day,Output (mL),Weather,Color\n8:05,2026-03-02,310,rain,clear')
    expect(left).toEqual(['Weather'])
    expect(rows).toEqual([row({ ml: '310', looks: 'clear' })])
  })

  it('is laid by the order of the columns where it has no heading', () => {
    expect(pasted('2026-03-02\t8:05\t1\t310').rows).toEqual([row({ drain: '1', ml: '310' })])
  })

  it('takes a unit of the heading to every number below it', () => {
    const [first = []] = pasted('Date\tTime\tOutput (oz)\tTemp (°F)\n2026-03-02\t8:05\t10\t99.5').rows
    expect([cellOfRow(first, 'ml'), cellOfRow(first, 'temperature')]).toEqual(['10 oz', '99.5 °F'])
  })

  it('of far too many rows is counted, and none is laid', () => {
    const text = `date,time,ml\n${Array.from({ length: 5000 }, (_, i) => `2026-03-02,8:05,${i}`).join('\n')}`
    expect(pasted(text)).toEqual({ rows: [], left: [], tooMany: 5000 })
  })
})

describe('a date', () => {
  it.each([
    ['2026-03-02', '2026-03-02'],
    ['2026/3/2', '2026-03-02'],
    ['2 Mar 2026', '2026-03-02'],
    ['02-Mar-26', '2026-03-02'],
    ['March 2, 2026', '2026-03-02'],
  ])('%s needs no question', (given, date) => expect(readDate(given, null)).toEqual({ date }))

  it('with numbers is asked about, unless another date of the sheet tells the order', () => {
    expect(readDate('3/2/2026', null)).toEqual({ ask: true })
    expect(orderOf(['3/2/2026', '14/2/2026'], null)).toBe('day-first')
    expect(orderOf(['3/2/2026', '2/14/26'], null)).toBe('month-first')
    expect(orderOf(['14/2/2026', '2/14/2026'], null)).toBeNull()
    expect(orderOf(['14/2/2026'], 'month-first')).toBe('month-first')
    expect(readDate('3/2/26', 'day-first')).toEqual({ date: '2026-02-03' })
    expect(readDate('3/2/26', 'month-first')).toEqual({ date: '2026-03-02' })
  })

  it.each(['30/2/2026', '46083', '3/2', 'yesterday', '2 Foo 2026'])('%s says what is accepted', (given) =>
    expect(readDate(given, 'day-first')).toMatchObject({ why: expect.stringContaining('accepted') }),
  )
})

it('a time is read as people write it', () => {
  expect(['8:05', '08.05', '20:05:00', '8:05 pm', '12 am', '12:30 p.m.', '0805'].map(readTime)).toEqual([
    '08:05',
    '08:05',
    '20:05',
    '20:05',
    '00:00',
    '12:30',
    '08:05',
  ])
  expect(['25:00', '8:61', '13 pm', 'noon', ''].map(readTime)).toEqual([null, null, null, null, null])
})

describe('a row', () => {
  it('is said in the words of a file of reports', () => {
    expect(
      value({
        ml: '310 mL',
        total: 'y',
        looks: 'bile, dark',
        flush: '10cc',
        ease: 'Stiff',
        changed: 'x',
        skin: 'whole',
        pain: '3/10',
      }),
    ).toEqual({
      at: '2026-03-02 08:05',
      volume_ml: '310',
      total: 'yes',
      appearance: 'bile-dark',
      flush_ml: '10',
      flush_ease: 'stiff',
      dressing_changed: 'yes',
      skin: 'intact',
      pain: '3',
    })
  })

  it('may have its time beside the date, and a volume that could not be measured', () => {
    expect(value({ date: '2026-03-02 8:05', time: '', ml: 'could not measure' })).toEqual({
      at: '2026-03-02 08:05',
      volume_ml: 'unknown',
    })
  })

  it('with ounces or cups is asked about, never guessed', () => {
    expect(one({ ml: '12 oz' })).toMatchObject({
      asks: { volumeUnit: true },
      lines: [{ values: { at: expect.anything() } }],
    })
    expect(value({ ml: '12 oz' }, { volumeUnit: 'oz' })?.volume_ml).toBe('354.9')
    expect(value({ ml: '12' }, { volumeUnit: 'oz' })?.volume_ml).toBe('354.9')
    expect(value({ ml: '300' }, { volumeUnit: 'mL' })?.volume_ml).toBe('300')
    expect(value({ ml: '2 cups' }, { volumeUnit: 'mL' })?.volume_ml).toBe('473.2')
    expect(value({ ml: '0.3 L' })?.volume_ml).toBe('300')
  })

  it('with a temperature that only °F can be is asked about, unless it says so', () => {
    expect(one({ temperature: '101.3' }).asks.temperatureUnit).toBe(true)
    expect(value({ temperature: '101.3' }, { temperatureUnit: 'F' })?.temperature_c).toBe('38.5')
    expect(value({ temperature: '101.3 °F' })?.temperature_c).toBe('38.5')
    expect(value({ temperature: '37.2' })?.temperature_c).toBe('37.2')
    // Said to be °C it stays as it is, and is refused as out of range further on.
    expect(value({ temperature: '101.3' }, { temperatureUnit: 'C' })?.temperature_c).toBe('101.3')
  })

  it('says its own fault, by number and column, and an empty one says nothing', () => {
    const { faults, lines } = readRows([emptyRow(), row({ date: '', time: 'noon', flush: '1 oz' })], unasked)
    expect(lines.map((line) => line.row)).toEqual([2])
    expect(faults.map((fault) => [fault.row, fault.column])).toEqual([
      [2, 'date'],
      [2, 'time'],
      [2, 'flush'],
    ])
    for (const { message } of faults) expect(message).toContain('accepted')
  })
})
