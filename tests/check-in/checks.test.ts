import { describe, expect, it } from 'vitest'
import { type Check, checksOf, topicOf } from '../../app/check-in/answers/checks.ts'
import type { Draft, DrainAnswers } from '../../app/check-in/answers/draft.ts'
import { type StepKind, stepsOf } from '../../app/check-in/answers/steps.ts'
import { draftOf, kidney, now, say, viewOf } from './view.ts'

const ofDrain = (kind: StepKind, answers: DrainAnswers, more: Partial<Draft> = {}, drain = kidney) =>
  checksOf({ id: `${kind}:d1`, kind, drain: 'd1' }, draftOf(answers, more), viewOf(drain), now, say)
const ofPerson = (kind: StepKind, more: Partial<Draft>) =>
  checksOf({ id: kind, kind, drain: null }, draftOf({}, more), viewOf(kidney), now, say)
const fields = (checks: { field: string }[]) => checks.map((check) => check.field)
const reading = (volumeMl: number) => ({ at: '2026-03-02T15:00:00.000Z', volumeMl })
const measured = (volume: string, more: DrainAnswers = {}): DrainAnswers => ({
  output: 'measured',
  volume,
  emptyings: 'one',
  ...more,
})

describe('what is to be looked at', () => {
  it('is a question without an answer', () => {
    expect(fields(ofPerson('feel', {}))).toEqual(['general'])
    expect(fields(ofDrain('tube', {}))).toEqual(['position:d1', 'leak:d1', 'draining:d1'])
    expect(fields(ofDrain('output', {}))).toEqual(['output:d1'])
    expect(fields(ofDrain('flush', {}))).toEqual(['flushed:d1'])
    expect(fields(ofDrain('dressing', {}))).toEqual(['dressingChanged:d1'])
    expect(fields(ofPerson('body', {}))).toEqual(['temperature', 'chills', 'pain'])
  })

  it('is nothing when all is said, not sure included', () => {
    expect(ofPerson('feel', { generalNone: true })).toEqual([])
    expect(ofDrain('tube', { position: 'unsure', leak: 'unsure', draining: 'unsure' })).toEqual([])
    expect(ofDrain('output', { output: 'not-measured' })).toEqual([])
    expect(ofDrain('output', measured('250'))).toEqual([])
    expect(ofPerson('body', { noThermometer: true, chills: 'unsure', pain: 0 })).toEqual([])
  })

  it('asks a tube that is out, or capped, for less', () => {
    expect(ofDrain('tube', { position: 'out' })).toEqual([])
    expect(fields(ofDrain('tube', {}, {}, { ...kidney, capped: true }))).toEqual(['position:d1', 'leak:d1'])
    const kinds = (answers: DrainAnswers, drain = kidney) =>
      stepsOf(viewOf(drain), draftOf(answers)).map((step) => step.kind)
    expect(kinds({})).toEqual(['feel', 'tube', 'output', 'flush', 'dressing', 'body', 'check'])
    expect(kinds({ position: 'out' })).toEqual(['feel', 'tube', 'dressing', 'body', 'check'])
    expect(kinds({}, { ...kidney, capped: true, flush: null })).toEqual([
      'feel',
      'tube',
      'dressing',
      'body',
      'check',
    ])
  })

  it('is a volume that is no number', () => {
    for (const volume of ['', 'some', '-5', '1000000']) {
      const [check] = ofDrain('output', measured(volume))
      expect(check?.field).toBe('volume:d1')
      expect(check?.again).toBeUndefined()
    }
  })

  it('asks whether a volume over the bag is of one emptying or several', () => {
    expect(fields(ofDrain('output', measured('700', { emptyings: undefined })))).toEqual(['emptyings:d1'])
    expect(ofDrain('output', measured('700', { emptyings: 'one' }))).toEqual([])
    expect(ofDrain('output', measured('1500', { emptyings: 'several' }))).toEqual([])
  })

  it('asks again for more than two bags at once, for more than 5000 mL, and where ounces were meant', () => {
    const again = (volume: string, more: DrainAnswers = {}) =>
      ofDrain('output', measured(volume, more))[0]?.again
    expect(again('1201', { emptyings: 'one' })).toBe('1201')
    expect(again('5001', { emptyings: 'several' })).toBe('5001')
    expect(again('14')).toBe('14') // 410 mL last time: 29 times less
    expect(again('410')).toBeUndefined()
  })

  it('asks again for much more and much less than the person mostly writes, and takes it when meant', () => {
    const says = (volume: string, sure = {}) => ofDrain('output', measured(volume), { sure })[0]?.message
    expect(says('5')).toContain('mostly write about 390 mL')
    expect(says('97')).toContain('mostly write about 390 mL')
    expect(says('98')).toBeUndefined()
    expect(says('120')).toBeUndefined() // a fall for the nurse to see, not for the person to doubt
    expect(says('5', { 'volume:d1': '5' })).toBeUndefined()
    const more = ofDrain('output', measured('450'), {}, { ...kidney, recent: [100, 110].map(reading) })
    expect(more[0]?.message).toContain('mostly write about 100 mL')
    // Nothing is an answer of its own, and one earlier reading makes no custom.
    expect(says('0')).toBeUndefined()
    expect(ofDrain('output', measured('500'), {}, { ...kidney, recent: [reading(100)] })).toEqual([])
  })

  it('shows a converted volume back as a question', () => {
    const oz = measured('12', { unit: 'oz' })
    const [check, ...more] = ofDrain('output', oz)
    expect(more).toEqual([])
    expect(check).toMatchObject({
      field: 'volume:d1',
      topic: 'converted',
      message: '12 oz = 355 mL, is that right?',
    })
    const sure = { [topicOf(check as Check)]: check?.again ?? '' }
    expect(ofDrain('output', oz, { sure })).toEqual([])
    expect(ofDrain('output', { ...oz, volume: '13' }, { sure })).toHaveLength(1)
    expect(ofDrain('output', { ...oz, unit: 'cup' }, { sure }).map((one) => one.message)).toContain(
      '12 cups = 2839 mL, is that right?',
    )
  })

  it('asks for the unit on the first three readings of a drain, once a report', () => {
    const fresh = { ...kidney, readings: 2, recent: [] }
    const [check] = ofDrain('output', measured('250'), {}, fresh)
    expect(check).toMatchObject({ topic: 'unit', message: 'You wrote 250. Is that number in mL?' })
    const sure = { [topicOf(check as Check)]: check?.again ?? '' }
    expect(ofDrain('output', measured('250'), { sure }, fresh)).toEqual([])
    expect(ofDrain('output', measured('260'), { sure }, fresh)).toEqual([])
    expect(ofDrain('output', measured('250'), {}, { ...fresh, readings: 3 })).toEqual([])
  })

  it('asks whether the number is of one emptying, unless this phone was told before', () => {
    const open = measured('250', { emptyings: undefined })
    expect(fields(ofDrain('output', open))).toEqual(['emptyings:d1'])
    expect(ofDrain('output', { ...open, habit: 'one' })).toEqual([])
    expect(ofDrain('output', { ...open, habit: 'several' })).toEqual([])
    const full = { ...open, volume: '600' }
    expect(ofDrain('output', { ...full, habit: 'one' })[0]?.message).toContain('Your bag holds 600 mL')
    expect(ofDrain('output', { ...full, habit: 'several' })).toEqual([])
  })

  it('asks for the time of an emptying that was not measured', () => {
    const at = (unmeasuredWhen: DrainAnswers['unmeasuredWhen']) =>
      fields(ofDrain('output', { output: 'not-emptied', unmeasured: true, unmeasuredWhen }))
    expect(at({ kind: 'earlier', day: '2026-03-09', time: '08:00' })).toEqual(['unmeasuredWhen:d1'])
    expect(at({ kind: 'earlier', day: '2026-03-01', time: '08:00' })).toEqual([])
  })

  it('takes an unusual value that was said again, and asks anew once it changes', () => {
    expect(ofDrain('output', measured('14'), { sure: { 'volume:d1': '14' } })).toEqual([])
    expect(ofDrain('output', measured('15'), { sure: { 'volume:d1': '14' } })).toHaveLength(1)
  })

  it('asks again for a rare temperature and refuses an impossible one', () => {
    const at = (temperature: string) => ofPerson('body', { temperature, chills: 'no', pain: 1 })
    expect(at('37.2')).toEqual([])
    expect(at('34.9')[0]?.again).toBe('34.9')
    expect(at('41.5')[0]?.again).toBe('41.5')
    expect(at('60')[0]).toMatchObject({ field: 'temperature' })
    expect(at('60')[0]?.again).toBeUndefined()
  })

  it('asks for a flush of more than twice the order, and for none that would not go in', () => {
    expect(ofDrain('flush', { flushed: 'yes', flushVolume: '25', flushEase: 'easy' })[0]?.again).toBe('25')
    expect(ofDrain('flush', { flushed: 'yes', flushVolume: '', flushEase: 'blocked' })).toEqual([])
    expect(fields(ofDrain('flush', { flushed: 'yes', flushVolume: '' }))).toEqual([
      'flushVolume:d1',
      'flushEase:d1',
    ])
  })

  it('is a picked time that has not come yet, or is not whole', () => {
    const at = (day: string, time: string) =>
      fields(ofDrain('output', { output: 'nothing', outputWhen: { kind: 'earlier', day, time } }))
    expect(at('2026-03-09', '08:00')).toEqual(['outputWhen:d1'])
    expect(at('2026-03-02', '')).toEqual(['outputWhen:d1'])
    expect(at('2026-03-01', '08:00')).toEqual([])
  })
})
