import { describe, expect, it } from 'vitest'
import { instantOf, localDay, pickableDays, sayWhen } from '../../app/check-in/answers/times.ts'
import { sayFor } from '../../app/check-in/words/catalogues.ts'
import { say } from './view.ts'

const at = (year: number, month: number, day: number, hour = 8, minute = 5) =>
  new Date(year, month - 1, day, hour, minute)
const now = at(2026, 3, 3)

describe('a time', () => {
  it('of now is the instant at which it was said', () => {
    expect(instantOf({ kind: 'now' }, '2026-03-03T15:00:00.000Z')).toBe('2026-03-03T15:00:00.000Z')
    expect(instantOf(undefined, '2026-03-03T15:00:00.000Z')).toBe('2026-03-03T15:00:00.000Z')
  })

  it('that was picked is the one on the clock beside the person', () => {
    const picked = instantOf(
      { kind: 'earlier', day: '2026-03-02', time: '20:10' },
      '2026-03-03T15:00:00.000Z',
    )
    expect(picked).toBe(at(2026, 3, 2, 20, 10).toISOString())
  })

  it('of a report that is corrected stays to the second', () => {
    expect(instantOf({ kind: 'at', at: '2026-03-02T20:10:31.250Z' }, 'x')).toBe('2026-03-02T20:10:31.250Z')
  })

  it('is not guessed when it is not whole', () => {
    expect(instantOf({ kind: 'earlier', day: '2026-03-02', time: '' }, 'x')).toBeNull()
    expect(instantOf({ kind: 'earlier', day: '', time: '20:10' }, 'x')).toBeNull()
  })

  it('can be picked in the last seven days, over the end of a month', () => {
    expect(pickableDays(now)).toEqual([
      '2026-03-03',
      '2026-03-02',
      '2026-03-01',
      '2026-02-28',
      '2026-02-27',
      '2026-02-26',
      '2026-02-25',
    ])
    expect(localDay(now)).toBe('2026-03-03')
  })

  it('is said in words', () => {
    expect(sayWhen(now.toISOString(), now, say)).toMatch(/^today at 8:05\sAM$/)
    expect(sayWhen(at(2026, 3, 2, 20, 10).toISOString(), now, say)).toMatch(/^yesterday at 8:10\sPM$/)
    expect(sayWhen(at(2026, 2, 27).toISOString(), now, say)).toMatch(/^Fri, Feb 27 at/)
    expect(sayWhen(now.toISOString(), now, sayFor('es'))).toMatch(/^hoy, 8:05\s/)
    expect(sayWhen(at(2026, 3, 2, 20, 10).toISOString(), now, sayFor('ar'))).toMatch(/أمس.*8:10/)
  })
})
