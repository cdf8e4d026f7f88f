import { describe, expect, it } from 'vitest'
import { readRecord } from '../../lib/rules/read-record.ts'
import { at, drain } from '../support/build.ts'
import { accepts, faults, having, refuses, report, whole } from '../support/whole-record.ts'

describe('a record that is taken', () => {
  it('is whole, and comes back as it is', () => {
    const input = whole()
    expect(readRecord(input)).toEqual({ record: input, faults: [] })
  })
  it('is as small as it gets: every list empty', () => {
    expect(
      faults({ timeZone: 'Etc/UTC', enrolledAt: at(0), drains: [], reports: [], staffEvents: [] }),
    ).toEqual([])
    expect(
      faults({
        timeZone: 'Etc/UTC',
        enrolledAt: at(0),
        drains: [drain()],
        reports: [
          {
            id: 'r',
            receivedAt: at(1),
            readings: [],
            flushes: [],
            dressings: [],
            symptoms: { at: at(1), drains: [], general: [] },
          },
        ],
        staffEvents: [],
      }),
    ).toEqual([])
  })
  it('may leave the optional fields out', () => {
    for (const path of [
      'usual',
      'drains.0.side',
      'drains.0.course',
      'drains.0.drainage',
      'drains.0.bagCapacityMl',
      'drains.0.plan.flush',
      'drains.0.plan.overrides',
      report(0, 'readings.0.appearance'),
      report(0, 'readings.0.total'),
      report(3, 'symptoms.general'),
      report(3, 'symptoms.drains'),
    ])
      accepts(path, undefined)
  })
  it.each([
    'removedAt',
    'cappedAt',
    'exchangeBookedFor',
    'removalBookedFor',
    'usualMlPerDay',
    'usualAppearance',
    'bagCapacityMl',
    'markMl',
    'plan.flush',
    'plan.exchangeEveryDays',
  ])('may have null for drains[0].%s', (field) => {
    accepts(`drains.0.${field}`, null)
  })
  it.each([
    report(0, 'readings.0.volumeMl'),
    report(0, 'readings.0.appearance'),
    report(1, 'flushes.0.volumeMl'),
    report(1, 'flushes.0.ease'),
    report(2, 'dressings.0.found'),
    report(2, 'dressings.0.skin'),
    report(3, 'symptoms.temperatureC'),
    report(3, 'symptoms.chills'),
    report(3, 'symptoms.pain'),
    report(3, 'symptoms'),
    report(3, 'symptoms.drains.0.position'),
    report(3, 'symptoms.drains.0.leak'),
    report(3, 'symptoms.drains.0.draining'),
    report(4, 'supersedes'),
  ])('may have null for %s', (path) => {
    accepts(path, null)
  })
})

describe('ranges, both ends in', () => {
  it.each([
    [report(3, 'symptoms.temperatureC'), 30, 45, 0.1],
    [report(3, 'symptoms.pain'), 0, 10, 1],
    [report(0, 'readings.0.volumeMl'), 0, 100_000, 1],
    [report(1, 'flushes.0.volumeMl'), 0, 100_000, 1],
    ['usual.pain', 0, 10, 1],
    ['drains.0.usualMlPerDay', 0, 100_000, 1],
    ['drains.0.plan.overrides.declineRatio', 0.1, 0.9, 0.01],
    ['drains.0.plan.overrides.stoppedHours', 2, 24, 1],
    ['drains.0.plan.overrides.feverC', 37.5, 39, 0.1],
    ['drains.0.plan.overrides.severePain', 5, 10, 1],
  ])('%s: %d to %d', (path, low, high, step) => {
    accepts(path, low)
    accepts(path, high)
    refuses(path, low - step)
    refuses(path, high + step)
    refuses(path, String(low))
  })
  it('name what is accepted', () => {
    expect(faults(having(report(3, 'symptoms.temperatureC'), 370))).toEqual([
      {
        field: 'reports[3].symptoms.temperatureC',
        value: 370,
        message: 'accepted: a number from 30 to 45 °C',
      },
    ])
    expect(faults(having('drains.0.plan.overrides.feverC', 41))).toEqual([
      { field: 'drains[0].plan.overrides.feverC', value: 41, message: 'accepted: 37.5 to 39 °C' },
    ])
  })
})
