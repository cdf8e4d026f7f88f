import { describe, expect, it } from 'vitest'
import type { HandOutDrain } from '../../lib/domain/hand-out.ts'
import {
  dangerLines,
  fullDateText,
  hoursLines,
  orderLines,
  running,
} from '../../lib/domain/hand-out-lines.ts'
import { handOutTexts } from '../../lib/domain/texts/hand-out.ts'

const { en, es } = handOutTexts
const zone = 'America/Denver'
const drain: HandOutDrain = Object.freeze({
  id: 'd1',
  label: 'left kidney',
  kind: 'nephrostomy',
  side: 'left',
  course: 'steady',
  capped: false,
  vessel: 'bag',
  lengthMarkCm: null,
  logEveryHours: 24,
  dressingEveryHours: 48,
  dressingType: null,
  flush: null,
  exchangeEveryDays: null,
  removalPlan: null,
  visits: [],
})
const lines = (change: Partial<HandOutDrain>, text = en) => orderLines({ ...drain, ...change }, text, zone)

describe('the orders of a drain, in words', () => {
  it('say how often to measure, flush and dress', () => {
    expect(lines({})).toEqual(['Measure and report once a day.', 'No flush.', 'New dressing every 2 days.'])
    const flush = { volumeMl: 10, everyHours: 12, at: ['09:00', '21:00'] }
    expect(lines({ flush, dressingType: 'gauze', lengthMarkCm: 22.5 })).toEqual([
      'Measure and report once a day.',
      'Flush 10 mL at 9:00 AM and 9:00 PM.',
      'New dressing every 2 days (gauze).',
      'Mark at the skin: 22.5 cm.',
    ])
    expect(lines({ flush: { ...flush, at: [] } })).toContain('Flush 10 mL twice a day.')
  })

  it('name a visit that is booked in the time of the clinic, else the plan', () => {
    const bookedFor = '2026-03-03T17:00:00Z'
    expect(lines({ exchangeEveryDays: 90 })).toContain('New tube every 90 days.')
    expect(
      lines({ exchangeEveryDays: 90, visits: [{ kind: 'exchange', state: 'booked', bookedFor }] }),
    ).toEqual(expect.arrayContaining(['Visit for a new tube: Tuesday, March 3, 10:00 AM.']))
    expect(
      lines({
        removalPlan: 'once the scan is clear',
        visits: [{ kind: 'removal', state: 'requested', bookedFor: null }],
      }).slice(-2),
    ).toEqual([
      'Your clinic will call you with a date to take it out.',
      'Plan to take it out: once the scan is clear.',
    ])
  })

  it('say of a capped tube to leave the cap on', () => {
    expect(lines({ capped: true })[0]).toBe('It has a cap. Leave the cap on.')
  })

  it('end with one full stop after an abbreviation', () => {
    expect(running(lines({ flush: { volumeMl: 10, everyHours: 24, at: ['21:00'] } }, es).slice(1, 3))).toBe(
      'Lave con 10 mL a las 9:00 p. m. Cambie la venda cada 2 días.',
    )
  })
})

describe('when to go and when to call', () => {
  const danger = (drains: Partial<HandOutDrain>[], feverC = 38) =>
    dangerLines({ drains: drains.map((change) => ({ ...drain, ...change })), feverC }, en)

  it('tells of a tube that comes out as an emergency, of a bulb as a call', () => {
    expect(danger([{}]).emergency).toContain(en.emergencyIf.out)
    const bulb = danger([{ kind: 'bulb', course: 'resolving' }])
    expect(bulb.emergency).not.toContain(en.emergencyIf.out)
    expect(bulb.callNow).toContain(en.callNowIf.out)
    expect(danger([{}, { kind: 'bulb' }]).emergency).toContain(en.emergencyIf.out)
  })

  it('tells of fever with a blocked tube where kidney or bile is drained', () => {
    expect(danger([{}]).emergency).toContain(en.emergencyIf.infected)
    expect(danger([{ kind: 'collection' }]).emergency).not.toContain(en.emergencyIf.infected)
  })

  it('takes less for granted of a drain that should dwindle, and nothing of a capped one', () => {
    expect(danger([{}]).callNow).toContain(en.callNowIf.stops)
    expect(danger([{ course: 'resolving' }]).callNow).toContain(en.callNowIf.dwindles)
    expect(danger([{ capped: true }]).callNow.join()).not.toMatch(/stops/)
  })

  it('names this person’s own fever limit on both scales', () => {
    expect(danger([{}], 38.5).callNow[0]).toContain('38.5 °C (101.3 °F)')
  })

  it('speaks of flushes only where one is ordered', () => {
    expect(danger([{}]).callToday).not.toContain(en.callTodayIf.flush)
    expect(danger([{ flush: { volumeMl: 10, everyHours: 24, at: [] } }]).callToday).toContain(
      en.callTodayIf.flush,
    )
  })
})

describe('when somebody reads', () => {
  const day = [{ from: '08:00', until: '16:30' }]
  it('puts days of the same hours together and names the next closed days', () => {
    const hours = {
      week: { mon: day, tue: day, wed: day, thu: [{ from: '08:00', until: '12:00' }], sat: day },
      holidays: [
        { date: '2026-01-01', name: 'past' },
        { date: '2026-12-25', name: 'to come' },
      ],
    }
    expect(hoursLines(hours, '2026-03-01', en)).toEqual([
      'Someone reads your reports: Mon–Wed 8:00 AM–4:30 PM; Thu 8:00 AM–12:00 PM; Sat 8:00 AM–4:30 PM.',
      'Closed on Friday, December 25.',
    ])
  })
  it('says to ask where the clinic has not said', () => {
    expect(hoursLines(null, '2026-03-01', en)).toEqual([en.hoursUnknown])
  })
})

it('writes a birth date in the words of the language', () => {
  expect([fullDateText('1958-03-12', en), fullDateText('1958-03-12', es)]).toEqual([
    'March 12, 1958',
    '12 de marzo de 1958',
  ])
})
