import { describe, expect, it } from 'vitest'
import { answerFault, answerText, askedOf, toldOf, withTold } from '@/app/ui/patient/call-sheet-answers.ts'
import { emptyReport, reportFaults, toSubmission } from '@/app/ui/patient/report-draft.ts'
import type { CallAnswer } from '@/lib/client/call-answers.ts'
import type { AnswerKind } from '@/lib/domain/call-text.ts'
import { Submission } from '@/lib/domain/submission.ts'
import { NOW } from '../fixtures/page.ts'

const zone = 'America/Denver'
const given = (answer: AnswerKind, value: string, part: Partial<CallAnswer> & { drain?: string } = {}) => {
  const { drain = null, ...rest } = part
  return {
    question: { key: `${drain} ${answer}`, code: 'leak', drain, who: drain, question: `${answer}?`, answer },
    asked: true,
    value,
    at: '2026-03-04T15:00:00.000Z',
    inCall: false,
    inReport: false,
    ...rest,
  } satisfies CallAnswer
}
const all = [
  given('temperature', '101,3'),
  given('chills', 'yes'),
  given('pain', '6'),
  given('general', 'dizzy vomiting'),
  given('leak', 'yes', { drain: 'd2' }),
  given('draining', 'no', { drain: 'd2' }),
  given('position', 'moved', { drain: 'd2' }),
  given('skin', 'red', { drain: 'd1' }),
  given('volume', '120', { drain: 'd1' }),
  given('words', 'daughter drives'),
  given('yes-no', 'no'),
]

describe('answers on the call sheet', () => {
  it('stand in the call as words', () => {
    expect(askedOf(all).map(({ drain, answer }) => [drain, answer])).toEqual([
      [null, '101,3 °F'],
      [null, 'yes'],
      [null, '6 of 10'],
      [null, 'dizzy, vomiting'],
      ['d2', 'yes'],
      ['d2', 'no'],
      ['d2', 'moved'],
      ['d1', 'red'],
      ['d1', '120 mL'],
      [null, 'daughter drives'],
      [null, 'no'],
    ])
    expect(answerText({ answer: 'temperature' }, '38.6')).toBe('38.6 °C')
    expect(answerText({ answer: 'general' }, 'none')).toBe('none of these')
    expect(answerText({ answer: 'pain' }, '  ')).toBe('')
  })
  it('are left out of a call that holds them already; a question that was only ticked is kept', () => {
    const answers = [
      given('pain', '6', { inCall: true }),
      given('words', ''),
      given('chills', 'yes', { asked: false }),
    ]
    expect(askedOf(answers)).toEqual([{ code: 'leak', drain: null, question: 'words?', answer: '' }])
  })
  it('that are no such number say so', () => {
    expect(answerFault({ answer: 'temperature' }, '101.3')).toBeUndefined()
    expect(answerFault({ answer: 'temperature' }, '')).toBeUndefined()
    for (const [answer, value] of [
      ['temperature', '50'],
      ['temperature', 'warm'],
      ['pain', '12'],
      ['volume', '-1'],
    ] as const)
      expect(answerFault({ answer }, value), value).toMatch(/^From/)
  })
})

describe('what they tell of readings and symptoms', () => {
  const draft = withTold(emptyReport(['d1', 'd2'], Date.parse(NOW), zone), all)
  it('fills in the report, which the door takes as it was told', () => {
    expect(reportFaults(draft, zone)).toEqual({})
    const body = Submission.parse(toSubmission(draft, zone, null))
    const at = '2026-11-24T07:34:00-07:00'
    expect(body).toMatchObject({
      readings: [{ drain: 'd1', at, volumeMl: 120 }],
      flushes: [],
      dressings: [{ drain: 'd1', skin: 'red' }],
      symptoms: {
        at,
        temperatureC: 38.5,
        chills: true,
        pain: 6,
        general: ['dizzy', 'vomiting'],
        drains: [{ drain: 'd2', position: 'moved', leak: true, draining: false }],
      },
    })
    expect(body.note).toBeUndefined()
  })
  it('is nothing of what was only said, nor of what stands in a report', () => {
    const empty = emptyReport(['d1'], Date.parse(NOW), zone)
    const answers = [given('words', 'well'), given('yes-no', 'yes'), given('pain', '6', { inReport: true })]
    expect(withTold(empty, answers)).toEqual(empty)
    expect(toldOf(answers)).toEqual([])
    expect(withTold(empty, [given('general', 'none')])).toMatchObject({ noGeneral: true, general: [] })
  })
  it('is said in few words before it is entered', () => {
    expect(toldOf(all).slice(0, 5)).toEqual([
      'temperature 101,3 °F',
      'chills yes',
      'pain 6 of 10',
      'general: dizzy, vomiting',
      'd2: leak yes',
    ])
  })
})
