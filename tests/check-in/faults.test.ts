import { describe, expect, it } from 'vitest'
import { faultsAtFields } from '../../app/check-in/answers/faults.ts'
import { submissionOf } from '../../app/check-in/answers/submission.ts'
import { faultsOf } from '../../lib/domain/problem.ts'
import { Submission } from '../../lib/domain/submission.ts'
import { draftOf, kidney, now, say, viewOf } from './view.ts'

const sent: Submission = {
  readings: [{ drain: 'd1', at: now.toISOString(), volumeMl: 6000 }],
  flushes: [{ drain: 'd2', at: now.toISOString(), volumeMl: -1 }],
  dressings: [{ drain: 'd1', at: 'yesterday' }],
  symptoms: { at: now.toISOString(), temperatureC: 60, drains: [{ drain: 'd2', leak: true }] },
  note: 'x'.repeat(2001),
}
const at = (field: string) => {
  const [fault] = faultsAtFields(
    { type: 't', title: 'Invalid', status: 400, faults: [{ field, message: 'm' }] },
    sent,
    say,
  )
  return [fault?.step, fault?.field]
}

describe('a fault that the clinic found', () => {
  it('stands at its question', () => {
    expect(at('readings[0].volumeMl')).toEqual(['output:d1', 'volume:d1'])
    expect(at('readings[0].at')).toEqual(['output:d1', 'outputWhen:d1'])
    expect(at('flushes[0].volumeMl')).toEqual(['flush:d2', 'flushVolume:d2'])
    expect(at('dressings[0].skin')).toEqual(['dressing:d1', 'skin:d1'])
    expect(at('symptoms.drains[0].leak')).toEqual(['tube:d2', 'leak:d2'])
    expect(at('symptoms.temperatureC')).toEqual(['body', 'temperature'])
    expect(at('symptoms.general[0]')).toEqual(['feel', 'general'])
    expect(at('note')).toEqual(['check', 'note'])
  })

  it('is shown on the last screen when it belongs to no question', () => {
    expect(at('(whole)')).toEqual(['check', 'report'])
    expect(at('readings[9].volumeMl')).toEqual(['check', 'report'])
    expect(faultsAtFields({ type: 't', title: 'Not taken', status: 422 }, sent, say)[0]).toMatchObject({
      step: 'check',
      message: 'This answer was not taken: Not taken',
    })
  })

  it('is found at a question for every fault that the schema names', () => {
    const result = Submission.safeParse(sent)
    const faults = result.success ? [] : faultsOf(result.error, sent)
    expect(faults.length).toBeGreaterThanOrEqual(5)
    for (const fault of faultsAtFields({ type: 't', title: 'Invalid', status: 400, faults }, sent, say))
      expect(fault.field).not.toBe('report')
  })

  it('does not arise from answers that the page takes', () => {
    const draft = draftOf(
      { output: 'measured', volume: '5001', emptyings: 'several' },
      { temperature: '113' },
    )
    expect(Submission.safeParse(submissionOf(draft, viewOf(kidney), now.toISOString())).success).toBe(true)
  })
})
