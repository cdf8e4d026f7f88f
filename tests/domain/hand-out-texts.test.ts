import { describe, expect, it } from 'vitest'
import { Language } from '../../lib/domain/languages.ts'
import { halfDayClock } from '../../lib/domain/texts/half-day-clock.ts'
import { type HandOutText, handOutTexts } from '../../lib/domain/texts/hand-out.ts'
import { englishGrade, SPANISH_SIXTH_GRADE, spanishEase } from '../support/readability.ts'

/** The page's texts by block, each block as somebody reads it: its sentences one after the other. */
function blocks(text: HandOutText): Record<string, string> {
  const { emergencyIf, callNowIf, callTodayIf, steps, log } = text
  const listed = (title: string, lines: readonly string[]) => `${title}: ${lines.join('. ')}.`
  return {
    orders: [
      text.capped,
      text.measure(text.every(12)),
      text.flush('10', text.flushAt(['9:00', '21:00'].map(text.time))),
      text.noFlush,
      text.dressing(text.every(48), null),
      text.cmAtSkin('22'),
      text.newTube('90'),
      text.newTubeAsked,
      text.takeOutAsked,
    ].join(' '),
    steps: listed(text.eachTime, Object.values(steps)),
    emergency: listed(text.emergency, Object.values(emergencyIf)),
    callNow: listed(text.callNow, [
      callNowIf.fever('38.0', '100.4'),
      callNowIf.out,
      callNowIf.stops,
      callNowIf.dwindles,
      callNowIf.moved,
      callNowIf.blood,
      callNowIf.pain,
    ]),
    callToday: listed(text.callToday, Object.values(callTodayIf)),
    cautions: text.cautions,
    link: `${text.scan} ${text.noLink} ${text.hoursUnknown}`,
    log: `${log.title}. ${log.about}`,
  }
}

describe('the words of the hand-out', () => {
  it.each(Object.entries(blocks(handOutTexts.en)))('in English: %s reads at grade 6 or below', (_, text) => {
    expect(englishGrade(text)).toBeLessThanOrEqual(6)
  })

  it.each(Object.entries(blocks(handOutTexts.es)))('in Spanish: %s reads at grade 6 or below', (_, text) => {
    expect(spanishEase(text)).toBeGreaterThanOrEqual(SPANISH_SIXTH_GRADE)
  })

  it.each(Language.options)(
    'in %s are complete, and say when they wait for a translator’s eye',
    (language) => {
      const text = handOutTexts[language]
      expect(text.unread === null).toBe(language === 'en')
      expect(Object.values(blocks(text)).filter((block) => /undefined|NaN/.test(block))).toEqual([])
    },
  )

  it.each([
    [1, 'every hour'],
    [6, '4 times a day'],
    [12, 'twice a day'],
    [18, 'every 18 hours'],
    [24, 'once a day'],
    [48, 'every 2 days'],
    [168, 'once a week'],
  ])('says of %i hours: %s', (hours, often) => {
    expect(handOutTexts.en.every(hours)).toBe(often)
  })

  it('has a clock of twelve hours', () => {
    expect(['00:05', '09:00', '12:00', '21:30'].map((clock) => halfDayClock(clock, 'AM', 'PM'))).toEqual([
      '12:05 AM',
      '9:00 AM',
      '12:00 PM',
      '9:30 PM',
    ])
  })
})
