import { describe, expect, it } from 'vitest'
import { draftOf, emptyReport, reportFaults, toSubmission } from '@/app/ui/patient/report-draft.ts'
import { Submission } from '@/lib/domain/submission.ts'
import { page } from '../fixtures/page.ts'

const now = Date.parse('2026-11-24T14:34:00Z')
const zone = 'America/Denver'
const empty = () => emptyReport(['d1', 'd2'], now, zone)

describe('a report by phone', () => {
  it('that says nothing is not sent', () => {
    expect(reportFaults(empty(), zone)).toEqual({ whole: 'Nothing is entered yet.' })
  })
  it('leaves out what was not asked: it is unknown, never no', () => {
    const draft = empty()
    draft.readings[0] = {
      ...draft.readings[0],
      drain: 'd1',
      at: '2026-11-24T07:00',
      volume: '120,5',
      unmeasured: false,
      total: false,
      confirmed: false,
      appearance: '',
    }
    expect(reportFaults(draft, zone)).toEqual({})
    const sent = toSubmission(draft, zone, null)
    expect(sent).toEqual({
      readings: [{ drain: 'd1', at: '2026-11-24T07:00:00-07:00', volumeMl: 120.5 }],
      flushes: [],
      dressings: [],
      symptoms: null,
    })
    expect(Submission.safeParse(sent).success).toBe(true)
  })
  it('could not measure is a null volume', () => {
    const draft = empty()
    draft.readings = draft.readings.map((reading) => ({ ...reading, unmeasured: reading.drain === 'd2' }))
    expect(toSubmission(draft, zone, null).readings).toEqual([
      { drain: 'd2', at: '2026-11-24T07:34:00-07:00', volumeMl: null },
    ])
  })
  it('a volume over 5000 mL is asked again', () => {
    const draft = empty()
    draft.readings = draft.readings.slice(0, 1).map((reading) => ({ ...reading, volume: '6000' }))
    expect(reportFaults(draft, zone)['readings.0.volume']).toMatch(/5000/)
    draft.readings = draft.readings.map((reading) => ({ ...reading, confirmed: true }))
    expect(reportFaults(draft, zone)).toEqual({})
    expect(toSubmission(draft, zone, null).readings?.[0]).toMatchObject({ volumeMl: 6000, confirmed: true })
  })
  it.each([
    ['temperature', { temperature: '101,3', unit: 'C' as const }],
    ['temperature', { temperature: 'warm' }],
    ['pain', { pain: '11' }],
    ['pain', { pain: '-1' }],
  ])('a %s out of range is marked', (field, part) => {
    expect(reportFaults({ ...empty(), ...part }, zone)).toHaveProperty(field)
  })
  it('Fahrenheit is stored as Celsius', () => {
    expect(
      toSubmission({ ...empty(), temperature: '101.3', unit: 'F' }, zone, null).symptoms?.temperatureC,
    ).toBe(38.5)
  })
  it('none of these is a statement, nothing marked is none', () => {
    expect(toSubmission({ ...empty(), noGeneral: true }, zone, null).symptoms?.general).toEqual([])
    expect(toSubmission({ ...empty(), pain: '3' }, zone, null).symptoms).not.toHaveProperty('general')
  })
  it('a correction opens with what was said and names what it replaces', () => {
    for (const report of page().record.reports) {
      const draft = draftOf(report, '', ['d1'], zone)
      const sent = toSubmission(draft, zone, report.id)
      expect(sent.supersedes).toBe(report.id)
      expect(sent.readings?.map(({ volumeMl }) => volumeMl)).toEqual(
        (report.readings ?? []).map(({ volumeMl }) => volumeMl),
      )
      expect(sent.flushes?.map(({ ease }) => ease)).toEqual((report.flushes ?? []).map(({ ease }) => ease))
      expect(sent.symptoms?.temperatureC).toBe(report.symptoms?.temperatureC)
      expect(sent.symptoms?.drains).toEqual(report.symptoms?.drains)
    }
  })
})
