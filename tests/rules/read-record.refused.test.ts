import { describe, expect, it } from 'vitest'
import { days, drain, reading, state } from '../support/build.ts'
import { accepts, faults, having, refuses, report, whole } from '../support/whole-record.ts'

describe('what is refused', () => {
  it.each([['a text'], [7], [null], [[]], [{}]])('%j', (input) => {
    expect(faults(input).length).toBeGreaterThan(0)
  })
  it.each([
    'timeZone',
    'enrolledAt',
    'drains',
    'drains.0.id',
    'drains.0.kind',
    'drains.0.placedAt',
    'drains.0.plan',
    'drains.0.plan.logEveryHours',
    'drains.0.plan.dressingEveryHours',
    report(0, 'id'),
    report(0, 'receivedAt'),
    report(0, 'readings.0.drain'),
    report(0, 'readings.0.at'),
    report(0, 'readings.0.volumeMl'),
    report(3, 'symptoms.at'),
    'staffEvents.0.at',
    'staffEvents.0.type',
    'staffEvents.1.code',
  ])('a record without %s', (path) => {
    refuses(path, undefined)
    expect(faults(having(path, undefined))[0]?.message).toContain('missing')
  })
  it.each([
    'more',
    'usual.more',
    'drains.0.more',
    'drains.0.plan.more',
    'drains.0.plan.flush.more',
    'drains.0.plan.overrides.declineMinMl',
    report(0, 'more'),
    report(0, 'readings.0.more'),
    report(1, 'flushes.0.more'),
    report(2, 'dressings.0.more'),
    report(3, 'symptoms.more'),
    report(3, 'symptoms.drains.0.more'),
    'staffEvents.0.more',
  ])('a field that is none: %s', (path) => {
    refuses(path, 1)
  })
  it.each([
    ['drains.0.kind', 'stent'],
    ['drains.0.course', 'capped'],
    ['drains.0.drainage', 'internal'],
    ['drains.0.usualAppearance', 'green'],
    [report(0, 'readings.0.appearance'), 'Red'],
    [report(1, 'flushes.0.ease'), 'hard'],
    [report(2, 'dressings.0.found'), 'wet'],
    [report(2, 'dressings.0.skin'), 'sore'],
    [report(3, 'symptoms.drains.0.position'), 'loose'],
    [report(3, 'symptoms.general'), ['unwell']],
    [report(3, 'symptoms.chills'), 'yes'],
    ['staffEvents.0.type', 'flushed'],
    ['staffEvents.1.code', 'fever'],
  ])('a word that is none: %s = %j', (path, value) => {
    const [fault] = faults(having(path, value))
    expect(fault?.field.startsWith(path.replace(/\.(\d+)/g, '[$1]'))).toBe(true)
    expect(fault?.message).toContain('accepted:')
  })
  it.each([
    '2026-03-02T08:05:00',
    '2026-03-02',
    '2026-02-30T08:05:00Z',
    '2026-03-02T25:00:00Z',
    'yesterday',
    1772434800000,
    '',
  ])('an instant that is none: %j', (value) => {
    for (const path of [
      'enrolledAt',
      'drains.0.placedAt',
      report(0, 'receivedAt'),
      report(0, 'readings.0.at'),
      'staffEvents.0.at',
    ])
      refuses(path, value)
  })
  it.each(['Mars/Olympus', '+02:00', 'denver', ''])('a time zone that is none: %j', (value) => {
    refuses('timeZone', value)
  })
  it.each([
    'drains.0.kind',
    'drains.0.placedAt',
    'drains.0.course',
    'drains.0.plan',
    report(0, 'receivedAt'),
    report(0, 'readings'),
    'timeZone',
  ])('null for %s', (path) => {
    refuses(path, null)
  })
})

describe('what no single field can tell', () => {
  it.each([
    ['a drain that is not there', report(0, 'readings.0.drain'), 'd9'],
    ['in a flush', report(1, 'flushes.0.drain'), 'd9'],
    ['in a dressing change', report(2, 'dressings.0.drain'), 'd9'],
    ['in symptoms', report(3, 'symptoms.drains.0.drain'), 'd9'],
    ['in a staff event', 'staffEvents.0.drain', 'd9'],
    ['a correction of a report that is not there', report(4, 'supersedes'), 'r9'],
    ['a correction of itself', report(4, 'supersedes'), 'r5'],
  ])('%s', (_, path, value) => {
    refuses(path, value)
  })
  it('ids that stand twice', () => {
    expect(faults({ ...whole(), drains: [drain(), drain()] }).map((f) => f.field)).toContain('drains[1].id')
    refuses(report(1, 'id'), 'r1')
  })
  it('corrections in a circle', () => {
    const input = {
      ...whole(),
      reports: [
        reading(1, 1, { id: 'a', supersedes: 'c' }),
        reading(1, 1, { id: 'b', supersedes: 'a' }),
        reading(1, 1, { id: 'c', supersedes: 'b' }),
      ],
    }
    expect(faults(input).map((f) => f.message)).toContain(
      'makes a circle; accepted: the id of an earlier report',
    )
  })
  it('a closing without its code, a code without a closing, an event without its drain', () => {
    refuses('staffEvents.1.code', undefined)
    refuses('staffEvents.0.code', 'leak')
    refuses('staffEvents.0.drain', undefined)
    accepts('staffEvents.1.drain', undefined) // a finding of the whole patient
  })
  it('each fault is named, not the first alone', () => {
    const input = { ...whole(), timeZone: 'nowhere', more: 1, reports: days([-1, 200_000]) }
    expect(
      faults(input)
        .map((f) => f.field)
        .sort(),
    ).toEqual(['more', 'reports[0].readings[0].volumeMl', 'reports[1].readings[0].volumeMl', 'timeZone'])
  })
  it('a chain of corrections is none', () => {
    const input = {
      ...whole(),
      reports: [
        reading(1, 1, { id: 'a' }),
        reading(1, 2, { id: 'b', supersedes: 'a' }),
        reading(1, 3, { id: 'c', supersedes: 'b' }),
        state(2, { leak: false }),
      ],
      staffEvents: [],
    }
    expect(faults(input)).toEqual([])
  })
})
