import { describe, expect, it } from 'vitest'
import { draftOfClinic, toClinicSettings, withSpan } from '@/app/ui/settings/clinic-draft.ts'
import { caseLabels } from '@/app/ui/settings/text-labels.ts'
import { AdviceName } from '@/lib/domain/advice-text.ts'
import type { ClinicSettings } from '@/lib/domain/clinic-hours.ts'

const settings: ClinicSettings = Object.freeze({
  phone: '+1 555 0142',
  afterHoursPhone: null,
  hours: {
    week: {
      mon: [
        { from: '08:00', until: '12:00' },
        { from: '13:00', until: '17:00' },
      ],
    },
    holidays: [{ date: '2026-12-25', name: 'Christmas' }],
  },
  quiet: { from: '21:00', until: '07:00' },
})

describe('the form of a clinic’s settings', () => {
  it('sends back what it was given', () => {
    expect(toClinicSettings(draftOfClinic(settings))).toEqual(settings)
    const none = { ...settings, hours: null, afterHoursPhone: '+1 555 0143' }
    expect(toClinicSettings(draftOfClinic(none))).toEqual(none)
  })

  it('begins with the usual quiet hours where the clinic has set none', () => {
    const { quiet } = toClinicSettings(draftOfClinic({ ...settings, quiet: null }))
    expect(quiet).toEqual({ from: '21:00', until: '08:00' })
  })

  it('offers the hours of the day before, each row with a number of its own', () => {
    const more = withSpan(draftOfClinic(settings), 'wed')
    expect(more.week.wed.map(({ from, until }) => [from, until])).toEqual([
      ['08:00', '12:00'],
      ['13:00', '17:00'],
    ])
    const twice = withSpan(more, 'wed')
    expect(twice.week.wed).toHaveLength(3)
    const numbers = [...twice.week.mon, ...twice.week.wed, ...twice.holidays].map(({ n }) => n)
    expect(new Set(numbers).size).toBe(numbers.length)
    expect(withSpan(draftOfClinic({ ...settings, hours: null }), 'mon').week.mon).toMatchObject([
      { from: '08:00', until: '17:00' },
    ])
  })

  it('puts spans and holidays in their order', () => {
    const draft = draftOfClinic(settings)
    const { hours } = toClinicSettings({
      ...draft,
      week: { ...draft.week, mon: draft.week.mon.toReversed() },
      holidays: [...draft.holidays, { n: 99, date: '2026-07-04', name: ' Fourth ' }],
    })
    expect(hours?.week).toEqual(settings.hours?.week)
    expect(hours?.holidays.map(({ name }) => name)).toEqual(['Fourth', 'Christmas'])
  })
})

it('each text has a name for staff', () => {
  expect(Object.keys(caseLabels)).toEqual(AdviceName.options)
})
