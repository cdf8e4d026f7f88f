import { describe, expect, it } from 'vitest'
import type { PatientRecord } from '../../../lib/domain/record.ts'
import { closed, days, drainView, event, flush, judged, reading, record } from '../../support/build.ts'

const output = (of: PatientRecord, hours = 2000) => drainView(of, hours).output
const baseline = (of: PatientRecord, hours?: number) => output(of, hours).baseline
/** How many times a volume stands in a list: `many(3, 400)`. */
const many = (count: number, ml: number) => Array.from({ length: count }, () => ml)

describe('the baseline', () => {
  it('is the median of the complete days that ended before the last 24 h', () => {
    const of = record({}, days([300, 420, 380, 9000]))
    expect(baseline(of)).toEqual({ mlPerDay: 380, from: 'days', days: 3 })
  })
  it('is not known with fewer than three days, and the ward’s figure serves until then', () => {
    expect(baseline(record({}))).toEqual({ mlPerDay: null, from: 'unknown', days: 0 })
    expect(baseline(record({}, days([300, 420, 9000])))).toEqual({ mlPerDay: null, from: 'unknown', days: 2 })
    expect(baseline(record({ usualMlPerDay: 500 }, days([300, 420, 9000])))).toEqual({
      mlPerDay: 500,
      from: 'ward',
      days: 2,
    })
    expect(baseline(record({ usualMlPerDay: 500 }, days([300, 420, 380, 0]))).from).toBe('days')
  })
  it('is of the latest seven days at the most', () => {
    // Days 1 to 5 of 300, days 6 to 9 of 500: the latest seven are three of 300 and four of 500.
    expect(baseline(record({}, days([...many(5, 300), ...many(4, 500), 1])))).toEqual({
      mlPerDay: 500,
      from: 'days',
      days: 7,
    })
  })
  it('is the middle of two where their number is even', () => {
    expect(baseline(record({}, days([300, 400, 420, 500, 1]))).mlPerDay).toBe(410)
  })
  it('takes a day from a coverage of 0.9 on, net as it stands', () => {
    // The first reading of day 1 cannot be measured: 2.4 h of it are unknown, 21.6 h of 24 are known; or 2.5 h.
    const of = (unknown: number) =>
      record({}, [reading(24, 400), reading(24 + unknown, null), reading(48, 360), ...days([400, 1], 2)])
    expect(baseline(of(2.4))).toEqual({ mlPerDay: 400, from: 'days', days: 3 })
    expect(baseline(of(2.5)).days).toBe(2)
  })
  it('does not scale a day of 23 h', () => {
    // Denver; the night to 8 March has an hour less. Midnights: 6 March 07:00, 7, 8 March 07:00, 9 March 06:00 UTC, …
    const midnights = ['03-06T07', '03-07T07', '03-08T07', '03-09T06', '03-10T06', '03-11T06'].map(
      (t) => `2026-${t}:00:00Z`,
    )
    const told = [400, 400, 230, 230, 0].map((volumeMl, i) => ({
      id: `m${i}`,
      receivedAt: midnights[i + 1] as string,
      readings: [{ drain: 'd1', at: midnights[i + 1] as string, volumeMl }],
    }))
    const of = record({ placedAt: midnights[0] }, told, [], {
      timeZone: 'America/Denver',
      enrolledAt: midnights[0],
    })
    // 400, 400, 230 (23 h), 230: the middle of 230 and 400 is 315.
    expect(baseline(of)).toEqual({ mlPerDay: 315, from: 'days', days: 4 })
    expect(judged(of, 300).drains[0]?.days.slice(0, 3)).toEqual([
      { date: '2026-03-06', netMl: 400, coverage: 1, hours: 24 },
      { date: '2026-03-07', netMl: 400, coverage: 1, hours: 24 },
      { date: '2026-03-08', netMl: 230, coverage: 1, hours: 23 },
    ])
  })
  it.each(['placed', 'exchanged', 'replaced', 'uncapped'] as const)('starts anew with a tube %s', (type) => {
    const of = record({}, days([400, 400, 400, 400, 400, 300]), [event(100, type)])
    // Since hour 100: a part of day 4, then day 5, which lies in the last 24 h.
    expect(baseline(of)).toEqual({ mlPerDay: null, from: 'unknown', days: 0 })
    expect(output(of).all).toHaveLength(6)
    expect(output(of).own).toHaveLength(2)
  })
  it('leaves out days that a stretch of more than 48 h touches', () => {
    // Days 0 and 1, then 49 h to 01:00 of day 4, whose rest comes at its end: days 2 to 4 are touched.
    const told = [...days([400, 400]), reading(97, 980), reading(120, 380), ...days([400], 5)]
    expect(baseline(record({}, told))).toEqual({ mlPerDay: null, from: 'unknown', days: 2 })
    // With 48 h they count.
    expect(baseline(record({}, [...days([400, 400]), reading(96, 960), ...days([400, 400], 4)])).days).toBe(5)
  })
})

describe('what is suspect stays out of the baseline', () => {
  it('a reading over twice the bag, and not one that is a total', () => {
    const of = (total: boolean) =>
      record({ bagCapacityMl: 600 }, [
        ...days([400, 400, 400]),
        reading(96, 1300, { total }),
        ...days([400], 4),
      ])
    expect(baseline(of(false)).days).toBe(3)
    expect(baseline(of(true)).days).toBe(4)
  })
  it('a reading that looks like ounces: 14 for 400 is a 28th', () => {
    const of = record({}, days([400, 400, 400, 400, 14, 400]))
    expect(output(of).suspicions.map(({ stretch, expectedMl }) => [stretch.volumeMl, expectedMl])).toEqual([
      [14, 400],
    ])
    expect(baseline(of)).toMatchObject({ mlPerDay: 400, days: 4 })
  })
  it.each([
    ['a 24th', 10, true],
    ['just over a 24th', 10.1, false],
    ['a 36th', 240 / 36, true],
    ['less than a 36th', 6.6, false],
    ['24 times', 24 * 240, true],
    ['less than 24 times', 24 * 240 - 1, false],
    ['36 times', 36 * 240, true],
    ['over 36 times', 36 * 240 + 1, false],
    ['nothing', 0, false],
  ])('%s of the usual 240: suspect %s', (_, ml, is) => {
    expect(output(record({}, days([240, 240, 240, 240, ml]))).suspicions).toHaveLength(is ? 1 : 0)
  })
  it('is held against the hours of its stretch and what was flushed in', () => {
    // 6 h of a usual 240 a day are 60; with 12 mL flushed in, 72 would come: a 24th is 3.
    const told = [...days([240, 240, 240, 240]), flush(97, 12), reading(102, 3)]
    expect(output(record({}, told)).suspicions).toMatchObject([{ expectedMl: 72 }])
  })
  it('needs a usual to be held against', () => {
    expect(output(record({}, days([400, 400, 14]))).suspicions).toEqual([])
    expect(output(record({ usualMlPerDay: 400 }, days([14]))).suspicions).toHaveLength(1)
  })
})

describe('a lasting fall does not become its own normal', () => {
  const fall = [...many(4, 400), ...many(8, 150)]
  it('low days of a steady drain stay out, however many there are', () => {
    expect(baseline(record({}, days(fall)))).toEqual({ mlPerDay: 400, from: 'days', days: 4 })
  })
  it('of a resolving drain they count: it should dwindle', () => {
    expect(baseline(record({ course: 'resolving' }, days(fall))).mlPerDay).toBe(150)
  })
  it.each([
    ['half of the baseline is not under it', 400, 200, 5],
    ['just under', 400, 199, 4],
    ['49 mL below a baseline of 90', 90, 41, 5],
    ['50 mL below it', 90, 40, 4],
  ])('%s', (_, usual, ml, count) => {
    expect(baseline(record({}, days([...many(4, usual), ml, usual]))).days).toBe(count)
  })
  it('half is half although it was added up from parts', () => {
    // Three bags of 0.1, 0.2 and 199.7 mL are 200, which is not under half of 400.
    const parts = [reading(104, 0.1), reading(112, 0.2), reading(120, 199.7)]
    expect(baseline(record({}, [...days(many(4, 400)), ...parts, ...days([400], 5)])).days).toBe(5)
  })
  it('until staff close the fall: the days before the closing count, with all that had been received of them', () => {
    const of = (received: number) =>
      record(
        {},
        [...days([...many(4, 400), 150, 150]), reading(168, 150, { received }), reading(192, 150)],
        [closed(170, 'output-decline')],
      )
    expect(baseline(of(168))).toEqual({ mlPerDay: 400, from: 'days', days: 7 })
    expect(baseline(of(171)).days).toBe(6) // the third low day was not known when the nurse closed it
  })
  it('and its own drain’s share decides', () => {
    const order = { plan: { overrides: { declineRatio: 0.3 } } }
    expect(baseline(record(order, days([...many(4, 400), 150, 400]))).days).toBe(5)
  })
})
