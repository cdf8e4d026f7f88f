import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { draftFromReport, withTimesOf } from '../../app/check-in/answers/from-report.ts'
import { stepsOf } from '../../app/check-in/answers/steps.ts'
import { submissionOf } from '../../app/check-in/answers/submission.ts'
import { carriedOf, summaryOf } from '../../app/check-in/answers/summary.ts'
import { fixTimes } from '../../app/check-in/form/fix-times.ts'
import type { CheckInDrain, OwnReport } from '../../lib/domain/check-in.ts'
import { Submission } from '../../lib/domain/submission.ts'
import { Appearance, DressingFound, Ease, General, Position, Skin } from '../../lib/domain/words.ts'
import { draftOf, kidney, now, say, viewOf } from './view.ts'

const own = (body: Submission): OwnReport => ({
  report: 'r1',
  receivedAt: '2026-03-02T15:00:00.000Z',
  sentBy: null,
  body,
})
const later = '2026-03-03T18:00:00.000Z'
const again = (body: Submission, ...drains: CheckInDrain[]) => {
  const view = viewOf(...(drains.length ? drains : [kidney]))
  return submissionOf(draftFromReport(own(body), view, 'k2', later), view, later)
}

/** What a report says, apart from how: nulls, a 'no' that is no by itself, and order mean nothing. */
function saidBy({ supersedes: _, supersedesKey: __, ...body }: Submission) {
  const bare = (part: object) =>
    Object.fromEntries(
      Object.entries(part)
        .filter(([name, value]) => value != null && name !== 'confirmed' && !(name === 'total' && !value))
        .sort(([a], [b]) => a.localeCompare(b)),
    )
  const list = (parts: object[] | undefined) => (parts ?? []).map((part) => JSON.stringify(bare(part))).sort()
  const { drains, general, ...person } = body.symptoms ?? {}
  const states = list(drains?.filter((state) => Object.keys(bare(state)).length > 1))
  const saysMore = Object.keys(bare(person)).length > 1 || general || states.length > 0
  return {
    readings: list(body.readings),
    flushes: list(body.flushes),
    dressings: list(body.dressings),
    states,
    // An instant alone states nothing.
    person: saysMore ? JSON.stringify(bare(person)) : null,
    general: general ? [...general].sort() : null,
    note: body.note?.trim() || null,
  }
}

const instant = fc
  .integer({ min: Date.UTC(2026, 2, 1), max: Date.UTC(2026, 2, 3) })
  .map((ms) => new Date(ms).toISOString())
const drain = fc.constantFrom('d1', 'd2', 'gone')
const oneOf = <T extends string>(words: readonly T[]) => fc.constantFrom(...words)
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined })
const volume = fc.integer({ min: 0, max: 50_000 }).map((tenths) => tenths / 10)

const anyReport: fc.Arbitrary<Submission> = fc
  .record(
    {
      readings: fc.array(
        fc.record(
          {
            drain,
            at: instant,
            volumeMl: fc.option(volume),
            appearance: fc.option(oneOf(Appearance.options)),
            total: fc.boolean(),
          },
          { requiredKeys: ['drain', 'at', 'volumeMl'] },
        ),
        { maxLength: 4 },
      ),
      flushes: fc.array(
        fc.record(
          { drain, at: instant, volumeMl: fc.option(volume), ease: fc.option(oneOf(Ease.options)) },
          { requiredKeys: ['drain', 'at'] },
        ),
        { maxLength: 3 },
      ),
      dressings: fc.array(
        fc.record(
          {
            drain,
            at: instant,
            found: fc.option(oneOf(DressingFound.options)),
            skin: fc.option(oneOf(Skin.options)),
            changed: fc.boolean(),
          },
          { requiredKeys: ['drain', 'at'] },
        ),
        { maxLength: 3 },
      ),
      symptoms: fc.record(
        {
          at: instant,
          temperatureC: fc.option(fc.integer({ min: 3000, max: 4500 }).map((value) => value / 100)),
          chills: fc.option(fc.boolean()),
          pain: fc.option(fc.integer({ min: 0, max: 10 })),
          general: fc.uniqueArray(oneOf(General.options)),
          drains: fc.uniqueArray(
            fc.record(
              {
                drain,
                position: fc.option(oneOf(Position.options)),
                leak: fc.option(fc.boolean()),
                draining: fc.option(fc.boolean()),
              },
              { requiredKeys: ['drain'] },
            ),
            { selector: (state) => state.drain },
          ),
        },
        { requiredKeys: ['at'] },
      ),
      note: maybe(fc.string({ minLength: 1, maxLength: 40 })),
    },
    { requiredKeys: [] },
  )
  .filter((report) => Submission.safeParse(report).success)

describe('a report that is corrected', () => {
  it('keeps every value that is not changed', () =>
    fc.assert(
      fc.property(anyReport, fc.boolean(), fc.boolean(), (report, capped, flushes) => {
        const drains = [
          { ...kidney, capped },
          { ...kidney, id: 'd2', kind: 'bulb' as const, flush: flushes ? kidney.flush : null },
        ]
        expect(saidBy(again(report, ...drains))).toEqual(saidBy(report))
      }),
      { numRuns: 400 },
    ))

  it('names the report that it takes the place of, by its key where the clinic has not got it', () => {
    const body: Submission = { note: 'sore' }
    expect(again(body)).toEqual({ note: 'sore', supersedes: 'r1' })
    const unsent = { key: 'k1', body, confirmedAt: now.toISOString() }
    const draft = draftFromReport(unsent, viewOf(kidney), 'k2', later)
    expect(submissionOf(draft, viewOf(kidney), later)).toEqual({ note: 'sore', supersedesKey: 'k1' })
  })

  it('knows nothing from not measured, and an emptying between from both', () => {
    const at = (hour: string) => `2026-03-02T${hour}:00:00.000Z`
    const draft = (readings: Submission['readings']) =>
      draftFromReport(own({ readings }), viewOf(kidney), 'k2', later).drains.d1
    expect(draft([{ drain: 'd1', at: at('08'), volumeMl: 0 }])?.output).toBe('nothing')
    expect(draft([{ drain: 'd1', at: at('08'), volumeMl: null }])?.output).toBe('not-measured')
    expect(
      draft([
        { drain: 'd1', at: at('07'), volumeMl: null },
        { drain: 'd1', at: at('08'), volumeMl: 120 },
      ]),
    ).toMatchObject({ output: 'measured', volume: '120', unmeasured: true })
  })

  it('shows what was said before beside what is said now, and what it carries along', () => {
    const view = viewOf(kidney)
    const readings = [
      { drain: 'd1', at: '2026-03-02T08:00:00.000Z', volumeMl: 410, appearance: 'straw' as const },
      { drain: 'd1', at: '2026-03-02T06:00:00.000Z', volumeMl: 30 },
    ]
    const draft = draftFromReport(own({ readings }), view, 'k2', later)
    const changed = { ...draft, drains: { d1: { ...draft.drains.d1, volume: '41' } } }
    const lines = summaryOf(changed, view, now, say).flatMap((group) => group.lines)
    expect(lines.filter(({ was }) => was !== undefined)).toEqual([
      { question: say('q.output'), answer: '41 mL', was: '410 mL' },
    ])
    expect(carriedOf(changed, view, now, say)).toEqual([expect.stringContaining('left kidney: 30 mL')])
    expect(submissionOf(changed, view, later).readings?.map(({ volumeMl }) => volumeMl)).toEqual([41, 30])
    expect(stepsOf(view, changed).at(-1)?.id).toBe('check')
  })
})

describe('a report that waits on the phone and is changed', () => {
  it('keeps the answers as they were typed, at the times that it gave', () => {
    const view = viewOf(kidney)
    const typed = draftOf({
      output: 'measured',
      volume: '12',
      unit: 'oz',
      emptyings: 'one',
      outputNow: '2026-03-02T08:00:00.000Z',
      flushed: 'yes',
      flushVolume: '10',
      flushNow: '2026-03-02T07:59:00.000Z',
      leak: 'unsure',
    })
    const body = submissionOf(typed, view, now.toISOString())
    const answers = withTimesOf(body, typed, view).drains.d1
    expect(answers).toMatchObject({
      volume: '12',
      unit: 'oz',
      leak: 'unsure',
      outputWhen: { kind: 'at', at: '2026-03-02T08:00:00.000Z' },
      flushWhen: { kind: 'at', at: '2026-03-02T08:00:00.000Z' },
    })
    expect(submissionOf(withTimesOf(body, typed, view), view, later)).toEqual(body)
  })
})

describe('times of a correction', () => {
  const step = (kind: 'body' | 'output') => ({ id: kind, kind, drain: kind === 'output' ? 'd1' : null })

  it('stay those of the report, until another one is picked', () => {
    const body: Submission = {
      readings: [{ drain: 'd1', at: '2026-03-02T08:00:31.000Z', volumeMl: 410 }],
      symptoms: { at: '2026-03-02T08:01:00.000Z', pain: 2 },
    }
    const view = viewOf(kidney)
    const draft = draftFromReport(own(body), view, 'k2', later)
    const changed = fixTimes(fixTimes({ ...draft, pain: 3 }, step('body'), later), step('output'), later)
    const sent = submissionOf(changed, view, later)
    expect(sent.symptoms).toEqual({ at: '2026-03-02T08:01:00.000Z', pain: 3 })
    expect(sent.readings?.[0]?.at).toBe('2026-03-02T08:00:31.000Z')
    const picked = { ...changed.drains.d1, outputWhen: { kind: 'now' as const } }
    expect(submissionOf({ ...changed, drains: { d1: picked } }, view, later).readings?.[0]?.at).toBe(later)
  })
})
