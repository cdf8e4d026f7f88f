import { describe, expect, it } from 'vitest'
import { canSum, outputsOf } from '@/app/ui/timeline/outputs.ts'
import type { Day } from '@/lib/domain/assessment.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { days, page } from '../fixtures/page.ts'

/** Two drains of the kinds given, each with its own last three days up to 24 November. */
function two(kinds: readonly [string, string], each: readonly [Partial<Day>[], Partial<Day>[]]): PatientPage {
  const base = page()
  const [drain] = base.record.drains
  const [output] = base.assessment.drains
  if (!drain || !output) throw new Error('the fixture has a drain')
  return {
    ...base,
    labels: {
      d1: { label: 'left kidney', frenchSize: 12, lengthMarkCm: null },
      d2: { label: 'right kidney', frenchSize: 10, lengthMarkCm: null },
    },
    record: {
      ...base.record,
      enrolledAt: '2026-11-22T08:00:00Z',
      drains: kinds.map((kind, i) => ({
        ...drain,
        id: `d${i + 1}`,
        kind: kind as typeof drain.kind,
        placedAt: '2026-11-22T08:00:00Z',
      })),
    },
    assessment: {
      ...base.assessment,
      drains: each.map((list, i) => ({
        ...output,
        drain: `d${i + 1}`,
        days: list.map((day, at) => ({
          date: `2026-11-${22 + at}`,
          netMl: 100,
          coverage: 1,
          hours: 24,
          ...day,
        })),
      })),
    },
  }
}
const kidneys = ['nephrostomy', 'nephroureteral'] as const

describe('the days of an output', () => {
  it('are never unknown before the first day that the page has', () => {
    const recent = page({ leftOut: { before: '2026-11-13', reports: 90 } })
    expect(outputsOf(recent, 'each')[0]?.days[0]).toMatchObject({ date: '2026-11-13', netMl: 390 })
  })
  it('begin with the drain in our care, so that a patient who never wrote is unknown, not absent', () => {
    const silent = page()
    silent.assessment.drains = []
    const [output] = outputsOf(silent, 'each')
    expect(output?.days).toHaveLength(41)
    expect(output?.days[0]).toMatchObject({ date: '2026-10-15', netMl: null, why: 'not logged' })
    expect(output?.days.at(-1)?.date).toBe('2026-11-24')
    expect(output?.usual).toBeNull()
  })
  it('that were logged and could not be measured are not said to be unlogged', () => {
    const told = page()
    const tried = { drain: 'd1', at: '2026-11-17T14:00:00Z', volumeMl: null }
    told.record.reports.push({ id: 'r9', receivedAt: '2026-11-17T15:00:00Z', readings: [tried] })
    const of = (date: string) => outputsOf(told, 'each')[0]?.days.find((day) => day.date === date)
    expect(of('2026-11-17')).toMatchObject({ netMl: null, why: 'not measured' })
    expect(of('2026-11-16')).toMatchObject({ netMl: 405, complete: true })
  })
  it('are missed again once the cap is off, on the day of its capping too', () => {
    const off = page()
    const [drain] = off.record.drains
    if (drain) drain.cappedAt = '2026-11-16T15:00:00Z'
    off.record.staffEvents = [{ at: '2026-11-16T18:00:00Z', drain: 'd1', type: 'uncapped' }]
    const known = outputsOf(off, 'each')[0]?.days ?? []
    expect(known.find(({ date }) => date === '2026-11-17')?.why).toBe('not logged')
  })
  it('are whole from the share on that the clinic’s rules ask for', () => {
    const strict = page()
    strict.limits.completeFrom = 0.25
    expect(outputsOf(strict, 'each')[0]?.days.at(-1)).toMatchObject({ coverage: 0.3, complete: true })
  })
  it('end with the removal of the drain: later days are not missed', () => {
    const out = page()
    out.record.staffEvents = [{ at: '2026-11-20T16:00:00Z', drain: 'd1', type: 'removed' }]
    expect(outputsOf(out, 'each')[0]?.days.at(-1)?.date).toBe('2026-11-20')
  })
  it('on which a drain was capped are no missed logs', () => {
    const capped = page()
    capped.record.staffEvents = [
      { at: '2026-11-17T01:00:00Z', drain: 'd1', type: 'capped' },
      { at: '2026-11-18T16:00:00Z', drain: 'd1', type: 'uncapped' },
    ]
    const [output] = outputsOf(capped, 'each')
    expect(output?.days.find(({ date }) => date === '2026-11-17')?.why).toBe('capped')
  })
  it('carry what was worked out of them, a full bag among it', () => {
    const full = page()
    const [first] = full.assessment.drains
    if (first) first.days = days.map((day, i) => (i === 3 ? { ...day, atLeast: true } : day))
    const known = outputsOf(full, 'each')[0]?.days.filter(({ netMl }) => netMl !== null)
    expect(known?.map(({ netMl }) => netMl)).toEqual(days.flatMap(({ netMl }) => netMl ?? []))
    expect(known?.filter(({ atLeast }) => atLeast).map(({ netMl }) => netMl)).toEqual([410])
  })
})

describe('a sum', () => {
  const summed = (...args: Parameters<typeof two>) => outputsOf(two(...args), 'sum')
  it('is of drains of one family of fluid only', () => {
    expect(canSum(two(kidneys, [[], []]).record.drains)).toBe(true)
    expect(canSum(two(['nephrostomy', 'biliary'], [[], []]).record.drains)).toBe(false)
    expect(summed(['nephrostomy', 'biliary'], [[{}], [{}]])).toHaveLength(2)
    expect(summed(kidneys, [[{}], [{}]])).toMatchObject([
      { label: 'Left kidney + right kidney, summed', drains: ['d1', 'd2'], usual: 820, limits: [] },
    ])
  })
  it('adds what is known of both', () => {
    const [sum] = summed(kidneys, [
      [{ netMl: 100 }, { netMl: 200 }, { netMl: -10 }],
      [{ netMl: 7 }, { netMl: 0 }, { netMl: 3 }],
    ])
    expect(sum?.days.map(({ netMl }) => netMl)).toEqual([107, 200, -7])
  })
  it('is unknown where one part is, and says which', () => {
    const [sum] = summed(kidneys, [
      [{}, {}, {}],
      [{}, { netMl: null, coverage: 0 }, {}],
    ])
    expect(sum?.days[1]).toMatchObject({ netMl: null, why: 'no sum: right kidney not logged' })
  })
  it('is in part where one part is, and at least where one part is', () => {
    const [sum] = summed(kidneys, [
      [{ coverage: 0.25 }, { atLeast: true }, {}],
      [{}, {}, {}],
    ])
    expect(sum?.days.map(({ coverage, atLeast }) => [coverage, atLeast])).toEqual([
      [0.25, false],
      [1, true],
      [1, false],
    ])
  })
  it('has no usual where one part’s is not known', () => {
    const half = two(kidneys, [[{}], [{}]])
    if (half.assessment.drains[1]) half.assessment.drains[1].baselineMlPerDay = null
    expect(outputsOf(half, 'sum')[0]?.usual).toBeNull()
  })
})
