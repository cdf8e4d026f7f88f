import { describe, expect, it } from 'vitest'
import { checksOf } from '../../app/check-in/answers/checks.ts'
import type { Draft, DrainAnswers } from '../../app/check-in/answers/draft.ts'
import { type StepKind, stepsOf } from '../../app/check-in/answers/steps.ts'
import { draftOf, kidney, now, viewOf } from './view.ts'

const ofDrain = (kind: StepKind, answers: DrainAnswers, more: Partial<Draft> = {}, drain = kidney) =>
  checksOf({ id: `${kind}:d1`, kind, drain: 'd1' }, draftOf(answers, more), viewOf(drain), now)
const ofPerson = (kind: StepKind, more: Partial<Draft>) =>
  checksOf({ id: kind, kind, drain: null }, draftOf({}, more), viewOf(kidney), now)
const fields = (checks: { field: string }[]) => checks.map((check) => check.field)
const measured = (volume: string, more: DrainAnswers = {}): DrainAnswers => ({
  output: 'measured',
  volume,
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
    expect(fields(ofDrain('output', measured('700')))).toEqual(['emptyings:d1'])
    expect(ofDrain('output', measured('700', { emptyings: 'one' }))).toEqual([])
    expect(ofDrain('output', measured('1900', { emptyings: 'several' }))).toEqual([])
  })

  it('asks again for more than two bags at once, for more than 5000 mL, and where ounces were meant', () => {
    const again = (volume: string, more: DrainAnswers = {}) =>
      ofDrain('output', measured(volume, more))[0]?.again
    expect(again('1201', { emptyings: 'one' })).toBe('1201')
    expect(again('5001', { emptyings: 'several' })).toBe('5001')
    expect(again('14')).toBe('14') // 410 mL last time: 29 times less
    expect(again('5')).toBeUndefined() // a fall, and no matter of units
    expect(again('410')).toBeUndefined()
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
