import { describe, expect, it } from 'vitest'
import { notReached } from '@/lib/domain/call-next.ts'
import { callSheet } from '@/lib/domain/call-sheet.ts'
import { type Line, textOf } from '@/lib/domain/call-sheet-line.ts'
import { standardCallTexts } from '@/lib/domain/call-text-standard.ts'
import { FindingCode } from '@/lib/domain/words.ts'
import { flag } from '../app/fixtures/flag.ts'
import { NOW, page } from '../app/fixtures/page.ts'

const now = Date.parse(NOW)
const texts = (lines: readonly Line[]) => lines.map(textOf)
const said = (given: ReturnType<typeof page>) =>
  callSheet(given, now).situation.map(({ lead, rest }) => textOf(lead) + textOf(rest))

describe('the call sheet', () => {
  it('tells in order what is, what was, what the rules see, what to ask, what then', () => {
    const { situation, background, seen, request } = callSheet(page(), now)
    expect(situation.map(({ lead, rest }) => [textOf(lead), textOf(rest)])).toEqual([
      ['Net output 140 mL', ' in the 24 h to 06:50, 34% of this drain’s usual 410 mL/day.'],
    ])
    expect(texts(background.lines)).toEqual([
      'Left kidney: nephrostomy, left, 12 F, day 41 (15 Oct).',
      'Log every 24 h, dressing 72 h, flush 10 mL every 24 h; last Mon 20:10, stiff.',
      'Last call Thu 09:00, J. Sund (invented): reached, watch and report. “Felt well.”',
    ])
    expect(texts(background.person)).toEqual([
      'Speaks Spanish; interpreter needed.',
      'Whom to call besides the patient: not asked.',
      'Not asked: blood thinners, immune system, allergies.',
      'Usual pain 2 of 10.',
    ])
    expect(texts(seen.lines)).toEqual([
      '12 of the last 14 days complete; no output known: Tue 10 Nov, Tue 17 Nov.',
      'The rules cannot see the other kidney, nor any blood test.',
    ])
    expect(request.ask.map(({ question, answer, drain }) => [question, answer, drain])).toEqual([
      ['Tube bent, clamped, or a tap turned off?', 'yes-no', null],
      ['Tube as long outside as before, stitch whole?', 'position', 'd1'],
      ['Last flush: when, and how did it go in?', 'words', null],
      ['Anything the usual way, and how much?', 'words', null],
      ['Temperature now?', 'temperature', null],
      ['Shaking or chills?', 'chills', null],
    ])
    expect(texts(request.advise)).toEqual([
      'Straighten the tube; flush as ordered.',
      'Never push against resistance.',
    ])
    expect(texts(request.escalate)).toEqual([
      'It stays low: a check of the tube.',
      'Cannot be reached within the hour: next contact on the chart, then the responsible clinician.',
    ])
    expect(request.standard).toEqual(['output-decline'])
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
    expect(texts(callSheet(page({ visits }), now).background.lines)[0]).toBe(
      'Left kidney: nephrostomy, left, 12 F, day 41 (15 Oct), exchange booked 1 Dec, removal requested.',
    )
  })
  it('counts the days from the last exchange, and says so', () => {
    const given = page()
    const record = {
      ...given.record,
      staffEvents: [{ at: '2026-11-12T16:00:00Z', drain: 'd1', type: 'exchanged' as const }],
    }
    expect(texts(callSheet({ ...given, record }, now).background.lines)[0]).toContain(
      'day 13 of the exchange (12 Nov)',
    )
  })
  it('says that a drain is capped and since when, and misses no output of it since', () => {
    const given = page()
    const capped = (staffEvents: typeof given.record.staffEvents, cappedAt: string | null = null) => {
      const drains = given.record.drains.map((drain) => ({ ...drain, cappedAt }))
      return callSheet({ ...given, record: { ...given.record, drains, staffEvents } }, now)
    }
    const on = { at: '2026-11-16T16:00:00Z', drain: 'd1', type: 'capped' as const }
    const off = { at: '2026-11-18T16:00:00Z', drain: 'd1', type: 'uncapped' as const }
    const byEvent = capped([on])
    expect(texts(byEvent.background.lines)[0]).toContain('capped since 16 Nov: no output expected')
    expect(texts(byEvent.seen.lines)[0]).toBe('12 of the last 14 days complete; no output known: Tue 10 Nov.')
    expect(texts(capped([], on.at).background.lines)[0]).toContain('capped since 16 Nov')
    expect(texts(capped([off], on.at).background.lines)[0]).not.toContain('capped')
    expect(texts(capped([on, off]).seen.lines)[0]).toContain('Tue 17 Nov')
  })
  it('counts days of which nothing came at all, from enrolment on', () => {
    const silent = page()
    silent.assessment.drains = []
    expect(texts(callSheet(silent, now).seen.lines)[0]).toBe(
      '0 of the last 14 days complete; of 14 no output is known.',
    )
    silent.record.enrolledAt = '2026-11-23T17:00:00Z'
    expect(texts(callSheet(silent, now).seen.lines)[0]).toBe('No whole day yet.')
  })
  it('names what is usual for them besides pain, and a course that is not the kind’s own', () => {
    const given = page()
    const drains = given.record.drains.map((drain) => ({ ...drain, course: 'resolving' as const }))
    const usual = { pain: 0, general: ['dizzy' as const] }
    const { background } = callSheet({ ...given, record: { ...given.record, drains, usual } }, now)
    expect(texts(background.lines)[0]).toContain('ordered as resolving')
    expect(texts(background.person)).toContain('Usual for them: dizzy.')
  })
  it('says what is owed is over by now', () => {
    const { situation } = callSheet(page({ flags: [flag({ state: 'owed' })] }), now)
    expect(situation.map(({ owed }) => owed)).toEqual([true])
  })
  it('says first that follow-up has ended, and that a word came', () => {
    const followUp = { ...page().followUp, endedAt: '2026-11-20T16:00:00Z', reason: 'declined' as const }
    expect(said(page({ followUp, lateWord: 'a report came after follow-up ended' })).slice(0, 2)).toEqual([
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
    const nothing = { ask: [], advise: [], escalate: [] }
    expect(ended('declined', null).request).toMatchObject(nothing)
    expect(ended('declined', null).situation).toHaveLength(1)
    expect(ended('declined', late).request).toEqual(callSheet(page(), now).request)
    expect(ended('died', null).request).toMatchObject(nothing)
    expect(ended('died', late).request).toMatchObject({
      ...nothing,
      ask: [{ question: 'Who sent this report, and when was it written?' }],
    })
  })
  it('says that they are in hospital, and where', () => {
    const admission = { since: '2026-11-23T20:00:00Z', place: 'ward 4' }
    expect(said(page({ admission }))[0]).toBe('In hospital since Mon 13:00, ward 4; deadlines rest.')
  })
  it('without a report says that nothing was heard, never that all is well', () => {
    const given = page({ flags: [] })
    expect(said({ ...given, record: { ...given.record, reports: [] } })).toEqual([
      'Nothing heard yet, since enrolment 15 Oct 11:00.',
    ])
    expect(said(given)).toEqual(['Nothing flagged; last heard 06:56.'])
  })
  it('tells a projection to removal with how far it may be off', () => {
    const told = (latest: string | null) => {
      const given = page()
      const drains = given.assessment.drains.map((drain) => ({
        ...drain,
        projection: { date: '2026-12-03', earliest: '2026-11-28', latest, method: 'a line' },
      }))
      return texts(callSheet({ ...given, assessment: { ...given.assessment, drains } }, now).seen.lines).join(
        ' ',
      )
    }
    expect(told('2026-12-12')).toContain('met about 3 Dec (95% interval 28 Nov to 12 Dec)')
    expect(told(null)).toContain('(95% interval 28 Nov or later, open-ended)')
  })
  it('says what the rules do not know: a usual output, a suspect reading', () => {
    const given = page({
      flags: [
        flag({
          code: 'reading-suspect',
          urgency: 'within-3d',
          nature: 'upkeep',
          says: 'A reading of 9000 mL Tue 24 Nov, 06:50 is more than 2 × the bag’s 600 mL.',
        }),
      ],
    })
    const drains = given.assessment.drains.map((drain) => ({
      ...drain,
      cannotTell: ['Baseline not known yet: 1 of 3 days.'],
    }))
    const lines = texts(callSheet({ ...given, assessment: { ...given.assessment, drains } }, now).seen.lines)
    expect(lines).toContain('Baseline not known yet: 1 of 3 days.')
    expect(lines.find((line) => line.includes('9000 mL'))).toMatch(/^Suspect, left out of the usual/)
  })
  it('what is due is named in one line', () => {
    const flags = [
      flag(),
      ...['d1', 'd2'].map((drain) => flag({ id: drain, drain, code: 'dressing-overdue', nature: 'upkeep' })),
    ]
    expect(said(page({ flags })).at(-1)).toBe('Due: dressing due.')
  })
  it('with nothing flagged it asks nothing', () => {
    const { request } = callSheet(page({ flags: [] }), now)
    expect(request).toEqual({ ask: [], askMore: [], advise: [], escalate: [], standard: [] })
  })
  it('a flag that no longer stands is not its matter', () => {
    const flags = [flag({ id: 'a', state: 'ended' }), flag({ id: 'b', state: 'closed' })]
    expect(callSheet(page({ flags }), now).situation.map((one) => one.flag)).toEqual([null])
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
    expect(callSheet(page({ flags }), now).situation.map(({ lead }) => textOf(lead))).toEqual([
      'Temperature 38.6 °C reported now',
      'A leak at the site',
    ])
  })
  it('keeps the dates of times where the clinic has another clock', () => {
    const abroad = page({ clinic: { ...page().clinic, timeZone: 'America/New_York' } })
    expect(said(abroad)[0]).toContain('Tue 24 Nov, 06:50')
  })
  it('says the next step of the clinic’s rule first, where nobody was reached', () => {
    const nextTry = { step: 'try', contact: null, at: NOW, says: 'Try again at 08:00.' } as never
    const given = { ...page(), nextTry }
    expect(texts(callSheet(given, now).request.escalate)[0]).toBe('Not reached so far. Try again at 08:00.')
  })
})

describe('ten drains', () => {
  const given = page()
  const ids = Array.from({ length: 10 }, (_, i) => `d${i + 1}`)
  const ten = {
    ...given,
    labels: Object.fromEntries(
      ids.map((id) => [id, { label: `drain ${id}`, frenchSize: null, lengthMarkCm: null }]),
    ),
    record: {
      ...given.record,
      drains: ids.map((id) => ({ ...(given.record.drains[0] as (typeof given.record.drains)[0]), id })),
    },
    flags: [
      flag({
        id: 'a',
        drain: 'd7',
        code: 'leak',
        says: 'A leak at the site was reported Tue 24 Nov, 06:50.',
      }),
      flag({
        id: 'b',
        drain: 'd9',
        code: 'leak',
        says: 'A leak at the site was reported Tue 24 Nov, 06:50.',
      }),
      flag({ id: 'c', drain: null, code: 'infection-signs' }),
    ],
  }
  const sheet = callSheet(ten, now)
  it('tells in sight of those that are flagged, and of the others on demand', () => {
    expect(texts(sheet.background.lines).filter((line) => line.includes('nephrostomy'))).toHaveLength(2)
    expect(texts(sheet.background.more).filter((line) => line.includes('nephrostomy'))).toHaveLength(8)
    expect(texts(sheet.situation.map(({ lead }) => lead)).slice(0, 2)).toEqual([
      'Drain d7: A leak at the site',
      'Drain d9: A leak at the site',
    ])
  })
  it('asks of each flagged drain by name, and never fills in a drain that is not known', () => {
    const all = [...sheet.request.ask, ...sheet.request.askMore]
    expect(all.filter(({ answer }) => answer === 'leak').map(({ who }) => who)).toEqual([
      'Drain d7',
      'Drain d9',
    ])
    const skin = all.find(({ code, question }) => code === 'infection-signs' && /skin/.test(question))
    expect(skin).toMatchObject({ drain: null, answer: 'words' })
    expect(sheet.request.ask).toHaveLength(6)
  })
})

describe('the clinic’s own texts', () => {
  it('stand in the place of the shipped ones', () => {
    const body = {
      ask: [{ question: 'Our question?', answer: 'words' as const }],
      advise: ['Our advice.'],
      escalate: [],
    }
    const { request } = callSheet(page({ callTexts: { 'output-decline': { version: 2, body } } }), now)
    expect(request.ask.map(({ question }) => question)).toEqual(['Our question?'])
    expect(texts(request.advise)).toEqual(['Our advice.'])
    expect(request.standard).toEqual([])
  })
})

it('every finding has questions, advice, and somebody to turn to', () => {
  for (const code of FindingCode.options) {
    const { ask, advise, escalate } = standardCallTexts[code]
    for (const { question } of ask) expect(question).toMatch(/\?$/)
    for (const text of [...advise, ...escalate]) expect(text).toMatch(/\.$/)
    expect(ask.length * advise.length * escalate.length, code).toBeGreaterThan(0)
  }
})
it('says what follows where nobody is reached, only where it cannot wait', () => {
  expect(notReached([{ urgency: 'within-24h' }, { urgency: 'at-once' }])).toMatch(/welfare check/)
  expect(notReached([{ urgency: 'within-24h' }])).toBeNull()
})
