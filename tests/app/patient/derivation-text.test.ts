import { describe, expect, it } from 'vitest'
import { leftOutLines, marksOf, reportedLines, sumText } from '@/app/ui/patient/derivation/derivation-text.ts'
import { DayDerivation } from '@/lib/domain/day-derivation.ts'
import { deriveDay } from '@/lib/rules/derive/day.ts'
import { standardRuleSet } from '@/lib/rules/thresholds.ts'
import { at, flush, reading, record } from '../../support/build.ts'

const derivation = (of: ReturnType<typeof record>, hours: number, date = '2026-03-02') =>
  DayDerivation.parse({
    ...deriveDay(of, standardRuleSet, at(hours), 'd1', date),
    asOf: at(hours),
    ruleSet: '2026.1',
    timeZone: 'Etc/UTC',
    reports: {
      r: { reporter: 'phone-in', sentBy: null, enteredBy: 'J. Sund (invented)', corrects: true },
      h: { reporter: 'helper', sentBy: 'Ida (invented)', enteredBy: null, corrects: false },
    },
  })

describe('what a day came to', () => {
  it('is told with how much of it is known, and unknown is never zero', () => {
    expect(sumText(derivation(record({}, [reading(24, 300.26)]), 30))).toBe(
      'Net 300.3 mL over 24 of its 24 h: a complete day.',
    )
    expect(sumText(derivation(record({}, [reading(12, 0)]), 30))).toBe(
      'Net 0 mL over 12 of its 24 h: known in part (50%).',
    )
    expect(sumText(derivation(record({}, [reading(12, 90)]), 13))).toBe(
      'Net 90 mL over 12 of its 24 h: so far.',
    )
    expect(sumText(derivation(record({ bagCapacityMl: 600 }, [reading(24, 600)]), 30))).toMatch(
      /at least 600 mL/,
    )
    expect(sumText(derivation(record({}), 30))).toBe('Nothing of this day is known. Unknown is not zero.')
  })
})

describe('what was reported', () => {
  it('stands in order of time with who said it and when it came', () => {
    const of = record({}, [
      reading(12, 120, { id: 'r', received: 13 }),
      flush(6, 10, { id: 'h' }),
      reading(20, null),
    ])
    expect(reportedLines(derivation(of, 24)).map(({ text, from }) => [text, from])).toEqual([
      ['flushed 10 mL', 'helper, Ida (invented); received Mon 2 Mar, 06:00'],
      ['emptied 120 mL', 'a correction, phone, entered by J. Sund (invented); received Mon 2 Mar, 13:00'],
      ['emptied, could not measure', 'not known who; received Mon 2 Mar, 20:00'],
    ])
  })
  it('names what is left out, and why', () => {
    const of = record({ placedAt: at(2) }, [reading(1, 11)])
    expect(leftOutLines(derivation(of, 24)).map(({ text }) => text)).toEqual([
      '11 mL: its time is before the drain was placed',
    ])
  })
})

describe('what is to be minded of a stretch', () => {
  const marks = (of: ReturnType<typeof record>, hours: number, date?: string) =>
    derivation(of, hours, date).stretches.flatMap(marksOf)
  it('is nothing where all is plain', () => {
    expect(marks(record({}, [reading(12, 10), reading(24, 10)]), 30).slice(1)).toEqual([])
  })
  it('is where it begins, what was flushed and not recorded, and what is in doubt', () => {
    const ordered = record({ plan: { flush: { volumeMl: 10, everyHours: 12 } } }, [reading(24, 100)])
    expect(marks(ordered, 30)).toEqual([
      'Begins at a new tube or an uncapping.',
      'Ordered flushes of 20 mL were due and not recorded; nothing is subtracted for them.',
    ])
    expect(marks(record({}, [flush(3, null), reading(60, 100)]), 70).join(' ')).toMatch(
      /60 h is too long to say .* A flush of unknown volume is not subtracted\./,
    )
    expect(marks(record({ bagCapacityMl: 600 }, [reading(24, 1300)]), 30).join(' ')).toMatch(
      /In doubt: more than the vessel can have held/,
    )
  })
})
