import { expect, it } from 'vitest'
import { reportLines } from '@/lib/domain/report-text.ts'

const naming = {
  nameOf: () => 'Left kidney',
  now: Date.parse('2026-11-24T14:34:00Z'),
  zone: 'America/Denver',
}

it('says each part of a report in a line, unknown as unknown', () => {
  expect(
    reportLines(
      {
        id: 'r',
        receivedAt: '2026-11-24T14:00:00Z',
        readings: [
          { drain: 'd1', at: '2026-11-24T13:50:00Z', volumeMl: 120, appearance: 'cloudy' },
          { drain: 'd1', at: '2026-11-23T13:50:00Z', volumeMl: null },
          { drain: 'd1', at: '2026-11-23T13:55:00Z', volumeMl: 0, total: true },
        ],
        flushes: [{ drain: 'd1', at: '2026-11-24T13:40:00Z', volumeMl: 10, ease: 'blocked' }],
        dressings: [{ drain: 'd1', at: '2026-11-24T13:41:00Z', found: 'damp', skin: 'red', changed: false }],
        symptoms: {
          at: '2026-11-24T13:50:00Z',
          temperatureC: 38.6,
          chills: true,
          pain: 0,
          general: ['dizzy'],
          drains: [{ drain: 'd1', position: 'moved', leak: true, draining: false }],
        },
      },
      naming,
    ),
  ).toEqual([
    'Left kidney: 120 mL at 06:50, cloudy',
    'Left kidney: could not measure at Mon 06:50',
    'Left kidney: 0 mL at Mon 06:55, sum of several emptyings',
    'Left kidney: flushed 10 mL at 06:40, blocked',
    'Left kidney: dressing not changed at 06:41, found damp, skin red',
    'Temperature 38.6 °C, chills, pain 0 of 10, dizzy',
    'Left kidney: drain moved, leaks, not draining',
  ])
})
it('an empty report says nothing', () => {
  expect(reportLines({ id: 'r', receivedAt: '2026-11-24T14:00:00Z' }, naming)).toEqual([])
})
