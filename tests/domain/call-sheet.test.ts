import { describe, expect, it } from 'vitest'
import { callNext } from '@/lib/domain/call-next.ts'
import { callQuestions } from '@/lib/domain/call-questions.ts'
import { callSheet } from '@/lib/domain/call-sheet.ts'
import { FindingCode } from '@/lib/domain/words.ts'
import { flag } from '../app/fixtures/flag.ts'
import { NOW, page } from '../app/fixtures/page.ts'

const now = Date.parse(NOW)

describe('the call sheet', () => {
  it('tells in order what is, what was, what the rules see, what to ask, what then', () => {
    expect(callSheet(page(), now)).toEqual({
      situation: [
        {
          lead: 'Net output 140 mL',
          rest: ' in the 24 h to 06:50, 34% of this drain’s usual 410 mL/day.',
          owed: false,
        },
      ],
      background: [
        'Left kidney: nephrostomy, left, 12 F, day 41 (15 Oct).',
        'Flush 10 mL every 24 h; last Mon 20:10, stiff.',
        'Last call Thu 09:00, J. Sund (invented): reached, watch and report. “Felt well.”',
        'Speaks Spanish; interpreter needed.',
        'Whom to call besides the patient: not asked.',
        'Not asked: blood thinners, immune system, allergies.',
        'Usual pain 2 of 10.',
      ],
      seen: [
        '12 of the last 13 days complete; not logged: Tue 17 Nov.',
        'The rules cannot see the other kidney, nor any blood test.',
      ],
      ask: callQuestions['output-decline'].slice(0, 7),
      next: [
        'Straighten, flush as ordered. If it stays low, a check of the tube.',
        'Cannot be reached within the hour: next contact on the chart, then the responsible clinician.',
      ],
    })
  })
  it('names visits that are requested or booked, not those that are over', () => {
    const visit = (kind: 'exchange' | 'removal', state: 'requested' | 'booked' | 'cancelled') => ({
      id: `${kind} ${state}`,
      drain: 'd1',
      kind,
      state,
      bookedFor: state === 'booked' ? '2026-12-01T16:00:00Z' : null,
      changedAt: '2026-11-20T16:00:00Z',
      changedBy: 'J. Sund (invented)',
      why: null,
    })
    const visits = [visit('exchange', 'booked'), visit('removal', 'requested'), visit('removal', 'cancelled')]
    expect(callSheet(page({ visits }), now).background[0]).toBe(
      'Left kidney: nephrostomy, left, 12 F, day 41 (15 Oct), exchange booked 1 Dec, removal requested.',
    )
  })
  it('says first that follow-up has ended, and that a word came', () => {
    const followUp = { ...page().followUp, endedAt: '2026-11-20T16:00:00Z', reason: 'declined' as const }
    const { situation } = callSheet(page({ followUp, lateWord: 'a report came after follow-up ended' }), now)
    expect(situation.slice(0, 2).map(({ lead, rest }) => lead + rest)).toEqual([
      'Follow-up has ended Fri 09:00: declined follow-up.',
      'On the list: a report came after follow-up ended.',
    ])
  })
  it('asks nothing once follow-up has ended, and after a death only who sent the report', () => {
    const ended = (reason: 'declined' | 'died', lateWord: string | null) => {
      const followUp = { ...page().followUp, endedAt: '2026-11-20T16:00:00Z', reason }
      return callSheet(page({ followUp, lateWord }), now)
    }
    const late = 'a report came after follow-up ended'
    expect(ended('declined', null)).toMatchObject({ ask: [], next: [] })
    expect(ended('declined', null).situation).toHaveLength(1)
    expect(ended('declined', late).ask).toEqual(callSheet(page(), now).ask)
    expect(ended('died', null)).toMatchObject({ ask: [], next: [] })
    expect(ended('died', late)).toMatchObject({
      ask: ['Who sent this report, and when was it written?'],
      next: [],
    })
  })
  it('tells a projection to removal with how far it may be off', () => {
    const told = (latest: string | null) => {
      const given = page()
      const drains = given.assessment.drains.map((drain) => ({
        ...drain,
        projection: { date: '2026-12-03', earliest: '2026-11-28', latest, method: 'a line' },
      }))
      return callSheet({ ...given, assessment: { ...given.assessment, drains } }, now).seen.join(' ')
    }
    expect(told('2026-12-12')).toContain('met about 3 Dec (95% interval 28 Nov to 12 Dec)')
    expect(told(null)).toContain('(95% interval 28 Nov or later, open-ended)')
  })
  it('what is due is named in one line', () => {
    const flags = [
      flag(),
      ...['d1', 'd2'].map((drain) => flag({ id: drain, drain, code: 'dressing-overdue', nature: 'upkeep' })),
    ]
    expect(callSheet(page({ flags }), now).situation.at(-1)).toEqual({
      lead: 'Due',
      rest: ': dressing due.',
      owed: false,
    })
  })
  it('with nothing flagged it asks nothing', () => {
    const sheet = callSheet(page({ flags: [] }), now)
    expect([sheet.situation, sheet.ask, sheet.next]).toEqual([[], [], []])
  })
  it('a flag that no longer stands is not its matter, a call that is owed is', () => {
    const flags = [
      flag({ id: 'a', state: 'ended' }),
      flag({ id: 'b', state: 'closed' }),
      flag({ id: 'c', state: 'owed' }),
    ]
    expect(callSheet(page({ flags }), now).situation.map(({ owed }) => owed)).toEqual([true])
  })
  it('says once what a blocked and infected drain says already', () => {
    const flags = [
      flag({
        id: 'a',
        code: 'blocked-and-infected',
        urgency: 'at-once',
        says: 'Temperature 38.6 °C reported now, and output is down.',
      }),
      flag({ id: 'b', code: 'infection-signs', drain: null }),
      flag({ id: 'c', code: 'leak', says: 'A leak at the site was reported Tue 24 Nov, 06:50.' }),
    ]
    expect(callSheet(page({ flags }), now).situation.map(({ lead }) => lead)).toEqual([
      'Temperature 38.6 °C reported now',
      'A leak at the site',
    ])
  })
  it('keeps the dates of times where the clinic has another clock', () => {
    const abroad = page({ clinic: { ...page().clinic, timeZone: 'America/New_York' } })
    expect(callSheet(abroad, now).situation[0]?.rest).toContain('Tue 24 Nov, 06:50')
  })
})

it('has questions for every finding, each a question or a request', () => {
  for (const code of FindingCode.options)
    for (const question of callQuestions[code]) expect(question).toMatch(/[?.]$/)
})
it('orders nothing twice, and few things', () => {
  const all = FindingCode.options.map((code) => ({ code, urgency: 'within-1h' as const }))
  const steps = callNext([...all, ...all])
  expect(new Set(steps).size).toBe(steps.length)
  expect(steps.length).toBeLessThanOrEqual(4)
})
