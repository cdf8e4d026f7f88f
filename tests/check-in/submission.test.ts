import { describe, expect, it } from 'vitest'
import type { DrainAnswers } from '../../app/check-in/answers/draft.ts'
import { submissionOf } from '../../app/check-in/answers/submission.ts'
import { Submission } from '../../lib/domain/submission.ts'
import { draftOf, kidney, now, viewOf } from './view.ts'

const sent = '2026-03-03T15:20:00.000Z'
const view = viewOf(kidney)
const make = (drain: DrainAnswers, more = {}, of = view) => submissionOf(draftOf(drain, more), of, sent)
const reading = (drain: DrainAnswers) => make({ outputNow: now.toISOString(), ...drain }).readings?.[0]

describe('the report of the answers', () => {
  it('holds a whole form as the door takes it', () => {
    const report = make(
      {
        position: 'in-place',
        leak: 'no',
        draining: 'yes',
        output: 'measured',
        volume: '120',
        outputNow: '2026-03-03T15:10:00.000Z',
        looks: 'straw',
        flushed: 'yes',
        flushVolume: '10',
        flushEase: 'stiff',
        flushNow: '2026-03-03T15:11:00.000Z',
        dressingChanged: 'no',
        dressingNow: '2026-03-03T15:12:00.000Z',
        found: 'clean',
        skin: 'red',
      },
      {
        general: ['dizzy'],
        temperature: '101.5',
        chills: 'yes',
        pain: 0,
        note: ' sore ',
        feltAt: '2026-03-03T15:13:00.000Z',
      },
    )
    expect(Submission.parse(report)).toEqual(report)
    expect(report).toEqual({
      readings: [{ drain: 'd1', at: '2026-03-03T15:10:00.000Z', volumeMl: 120, appearance: 'straw' }],
      flushes: [{ drain: 'd1', at: '2026-03-03T15:11:00.000Z', volumeMl: 10, ease: 'stiff' }],
      dressings: [
        { drain: 'd1', at: '2026-03-03T15:12:00.000Z', found: 'clean', skin: 'red', changed: false },
      ],
      symptoms: {
        at: '2026-03-03T15:13:00.000Z',
        temperatureC: 38.61,
        chills: true,
        pain: 0,
        general: ['dizzy'],
        drains: [{ drain: 'd1', position: 'in-place', leak: false, draining: true }],
      },
      note: 'sore',
    })
  })

  it('knows nothing from not measured, and both from not emptied', () => {
    expect(reading({ output: 'nothing' })?.volumeMl).toBe(0)
    expect(reading({ output: 'not-measured', looks: 'pink' })).toMatchObject({
      volumeMl: null,
      appearance: 'pink',
    })
    expect(reading({ output: 'not-emptied' })).toBeUndefined()
  })

  it('never makes a no or a zero of what was left open or not sure', () => {
    expect(
      make({ position: 'unsure', leak: 'unsure', draining: 'unsure', skin: 'unsure', found: 'unsure' }),
    ).toEqual({})
    expect(make({}, { noThermometer: true, chills: 'unsure' })).toEqual({})
    expect(make({}, { generalNone: true }).symptoms?.general).toEqual([])
  })

  it('converts, adds up and confirms as the person said', () => {
    expect(reading({ output: 'measured', volume: '12', unit: 'oz' })?.volumeMl).toBe(355)
    expect(reading({ output: 'measured', volume: '900', emptyings: 'several' })).toMatchObject({
      volumeMl: 900,
      total: true,
    })
    expect(reading({ output: 'measured', volume: '6000', emptyings: 'one' })).toMatchObject({
      confirmed: true,
    })
    expect(reading({ output: 'measured', volume: 'some' })).toBeUndefined()
  })

  it('takes the flush for later than the emptying when both are now, in whatever order they were said', () => {
    const report = make({
      output: 'nothing',
      outputNow: '2026-03-03T15:10:00.000Z',
      flushed: 'yes',
      flushNow: '2026-03-03T15:05:00.000Z',
    })
    expect(report.flushes?.[0]?.at).toBe('2026-03-03T15:10:00.000Z')
  })

  it('keeps the time at which now was said, and a picked time', () => {
    expect(make({ output: 'nothing', outputNow: '2026-03-03T09:00:00.000Z' }).readings?.[0]?.at).toBe(
      '2026-03-03T09:00:00.000Z',
    )
    const picked = make({
      output: 'nothing',
      outputWhen: { kind: 'earlier', day: '2026-03-02', time: '20:10' },
    })
    expect(picked.readings?.[0]?.at).toBe(new Date(2026, 2, 2, 20, 10).toISOString())
  })

  it('asks nothing of a tube that is out but says so', () => {
    expect(
      make({ position: 'out', output: 'measured', volume: '50', draining: 'no', flushed: 'yes' }),
    ).toEqual({
      symptoms: { at: sent, drains: [{ drain: 'd1', position: 'out' }] },
    })
  })

  it('sends no output and no draining of a capped tube', () => {
    const capped = viewOf({ ...kidney, capped: true })
    expect(make({ output: 'nothing', draining: 'no', leak: 'yes' }, {}, capped)).toEqual({
      symptoms: { at: sent, drains: [{ drain: 'd1', leak: true }] },
    })
  })

  it('holds an emptying that was not measured at its own time, beside what was', () => {
    const unmeasuredWhen = { kind: 'at' as const, at: '2026-03-02T22:00:00.000Z' }
    const beside = (drain: DrainAnswers) =>
      make({ outputNow: now.toISOString(), unmeasured: true, unmeasuredWhen, ...drain }).readings
    const unmeasured = { drain: 'd1', at: '2026-03-02T22:00:00.000Z', volumeMl: null }
    expect(beside({ output: 'measured', volume: '200' })).toEqual([
      unmeasured,
      { drain: 'd1', at: now.toISOString(), volumeMl: 200 },
    ])
    expect(beside({ output: 'not-emptied' })).toEqual([unmeasured])
    expect(beside({ output: 'nothing' })?.map(({ volumeMl }) => volumeMl)).toEqual([null, 0])
    expect(beside({ output: 'measured', volume: '200', unmeasured: false })).toHaveLength(1)
    expect(beside({ output: 'nothing', position: 'out' })).toBeUndefined()
  })

  it('takes the number as this phone was told before, unless it fills the bag', () => {
    const total = (drain: DrainAnswers) => reading({ output: 'measured', volume: '200', ...drain })?.total
    expect(total({ habit: 'several' })).toBe(true)
    expect(total({ habit: 'one' })).toBeUndefined()
    expect(total({ habit: 'several', emptyings: 'one' })).toBeUndefined()
    expect(total({ habit: 'one', emptyings: 'several', volume: '700' })).toBe(true)
  })

  it('names what it takes the place of, the report of a danger before any other', () => {
    expect(make({}, { pain: 1, supersedes: 'r1' })).toMatchObject({ supersedes: 'r1' })
    expect(make({}, { pain: 1, supersedesKey: 'k1' })).toMatchObject({ supersedesKey: 'k1' })
    expect(make({}, { pain: 1, supersedes: 'r1', dangerSentKey: 'k2' })).toEqual({
      symptoms: { at: sent, pain: 1 },
      supersedesKey: 'k2',
    })
  })

  it('leaves out a drain that is no longer there', () => {
    expect(make({ output: 'nothing' }, {}, viewOf())).toEqual({})
  })
})
