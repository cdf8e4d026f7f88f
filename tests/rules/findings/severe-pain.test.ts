import { describe, expect, it } from 'vitest'
import { drain, finding, record, symptoms, times, urgency } from '../../support/build.ts'

const told = (...pains: number[]) => pains.map((pain, i) => symptoms(10 + i, { pain }))
const pain = (pains: number[], usual = 0) =>
  urgency('severe-pain', record({}, told(...pains), [], { usual: { pain: usual } }), 100, null)

describe('severe-pain', () => {
  it.each([
    ['7 of 10', [7], 'within-1h'],
    ['6 of 10', [6], 'none'],
    ['10 of 10', [10], 'within-1h'],
    ['4, 3 above the one before', [1, 4], 'within-24h'],
    ['4, 2 above it', [2, 4], 'none'],
    ['3, 3 above it', [0, 3], 'none'],
    ['6, with none before', [6], 'none'],
    ['7, 3 above: the more urgent form', [4, 7], 'within-1h'],
    ['less again', [8, 6], 'none'],
    ['rising in small steps', [1, 3, 5], 'none'],
  ] as const)('%s', (_, pains, expected) => {
    expect(pain([...pains])).toBe(expected)
  })
  it('is none up to what is usual for the person', () => {
    expect([pain([7], 7), pain([8], 7)]).toEqual(['none', 'within-1h'])
    expect([pain([1, 4], 4), pain([1, 5], 4)]).toEqual(['none', 'within-24h'])
  })
  it('stands as the newest statement on pain has it, however old', () => {
    expect(
      urgency('severe-pain', record({}, [...told(8), symptoms(20, { temperatureC: 37 })]), 900, null),
    ).toBe('within-1h')
  })
  it('stands since it has been that severe', () => {
    const of = record({}, told(1, 5, 8, 9))
    expect(times(finding('severe-pain', of, 14, null))).toEqual({ since: 12, actBy: 13 })
    expect(times(finding('severe-pain', of, 11, null))).toEqual({ since: 11, actBy: 35 })
  })
  it('is held to the most cautious of the drains that are in', () => {
    const of = record([drain(), drain({ id: 'd2', plan: { overrides: { severePain: 6 } } })], told(6))
    expect(urgency('severe-pain', of, 11, null)).toBe('within-1h')
    expect(finding('severe-pain', of, 11, null)?.threshold).toMatchObject({ name: 'severePain', value: 6 })
    expect(
      urgency(
        'severe-pain',
        record([drain({ plan: { overrides: { severePain: 8 } } }), drain({ id: 'd2' })], told(7)),
        11,
        null,
      ),
    ).toBe('within-1h')
  })
  it('tells its numbers', () => {
    expect(finding('severe-pain', record({}, told(1, 5)), 12, null)?.says).toContain(
      'Pain rose from 1 to 5 of 10',
    )
  })
})
