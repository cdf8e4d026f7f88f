import { type Draft, type DrainAnswers, newDraft } from '../../app/check-in/answers/draft.ts'
import { sayFor } from '../../app/check-in/words/catalogues.ts'
import type { CheckInDrain, CheckInView } from '../../lib/domain/check-in.ts'
import { standardAdvice } from '../../lib/domain/texts/advice.ts'

/** An invented person with one kidney tube, as the check-in page is given them. */
export const kidney: CheckInDrain = {
  id: 'd1',
  label: 'left kidney',
  kind: 'nephrostomy',
  side: 'left',
  course: 'steady',
  capped: false,
  placedAt: '2026-02-01T15:00:00.000Z',
  usualAppearance: null,
  flush: { volumeMl: 10, everyHours: 24 },
  dressingEveryHours: 48,
  vessel: 'bag',
  bagCapacityMl: 600,
  markMl: null,
  readings: 20,
  recent: [
    { at: '2026-03-01T15:00:00.000Z', volumeMl: 390 },
    { at: '2026-03-02T15:00:00.000Z', volumeMl: 410 },
  ],
}

export const viewOf = (...drains: CheckInDrain[]): CheckInView => ({
  asOf: '2026-03-03T15:00:00.000Z',
  clinic: {
    id: 'c1',
    name: 'Larkfield clinic (invented)',
    phone: '555-0142',
    afterHoursPhone: null,
    timeZone: 'America/Denver',
    hours: null,
    demo: true,
  },
  patient: { id: 'p1', firstName: 'Imre', timeZone: 'America/Denver', language: 'en' },
  sender: { kind: 'patient', name: null, maySee: true },
  limits: { feverC: 38, severePain: 7 },
  texts: standardAdvice,
  drains,
  ownReports: [],
  lastReportAt: null,
  lastReadAt: null,
  followUpEndedAt: null,
})

export const now = new Date('2026-03-03T15:00:00.000Z')
export const say = sayFor('en')

export function draftOf(drain: DrainAnswers = {}, more: Partial<Draft> = {}): Draft {
  const draft: Draft = { ...newDraft(viewOf(kidney), 'key-1', now.toISOString()), ...more }
  return Object.keys(drain).length ? { ...draft, drains: { d1: drain } } : draft
}
