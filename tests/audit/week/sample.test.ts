import { describe, expect, it } from 'vitest'
import { type Candidate, drawItems, type Frame } from '../../../lib/audit/week/sample.ts'

const candidates = (name: string, n: number): Candidate[] =>
  Array.from({ length: n }, (_, i) => ({
    kind: 'flag',
    patientId: `${name}-${i}`,
    drain: null,
    flagId: `${name}-${i}`,
    at: '2026-03-03T10:00:00.000Z',
  }))

const frame = (sizes: Partial<Record<keyof Frame, number>>): Frame => {
  const of = (name: keyof Frame) => candidates(name, sizes[name] ?? 0)
  return {
    atOnce: of('atOnce'),
    withinHour: of('withinHour'),
    clinical: of('clinical'),
    upkeep: of('upkeep'),
    heard: of('heard'),
    silent: of('silent'),
  }
}

/** A small generator for tests: the same numbers in every run. */
function chanceOf(seed: number) {
  let state = seed
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648
    return state / 2_147_483_648
  }
}
let ids = 0
const draw = (sizes: Partial<Record<keyof Frame, number>>, seed = 1) =>
  drawItems('2026-03-02', frame(sizes), chanceOf(seed), () => `i${++ids}`)
const from = (items: ReturnType<typeof draw>, name: string) =>
  items.filter(({ patientId }) => patientId.startsWith(`${name}-`))

describe('the sample of a week', () => {
  it('holds all that presses, for certain, and of the rest a share that fills about twenty minutes', () => {
    const items = draw({ atOnce: 3, withinHour: 6, clinical: 40, upkeep: 200, heard: 120, silent: 60 })
    expect(from(items, 'atOnce')).toHaveLength(3)
    expect(from(items, 'withinHour')).toHaveLength(6)
    expect(from(items, 'atOnce').every(({ probability }) => probability === 1)).toBe(true)
    // 25 first readings of 40 s and 5 second ones: 20 minutes.
    expect(items).toHaveLength(25)
    for (const name of ['clinical', 'upkeep', 'heard', 'silent'])
      expect(from(items, name).length).toBeGreaterThan(0)
  })

  it('keeps of each item the chance that it had: their inverses count what there was', () => {
    const sizes = { atOnce: 2, clinical: 31, upkeep: 77, heard: 53, silent: 19 }
    const items = draw(sizes)
    for (const [name, size] of Object.entries(sizes)) {
      const sum = from(items, name).reduce((all, { probability }) => all + 1 / probability, 0)
      expect(sum).toBeCloseTo(size, 6)
    }
  })

  it('draws from every group even where much presses', () => {
    const items = draw({ withinHour: 90, clinical: 30, upkeep: 30, heard: 30, silent: 30 })
    expect(from(items, 'withinHour')).toHaveLength(90)
    for (const name of ['clinical', 'upkeep', 'heard', 'silent'])
      expect(from(items, name).length).toBeGreaterThanOrEqual(1)
  })

  it('takes all of a group that is small, and gives its places to the others', () => {
    const items = draw({ silent: 2, heard: 300 })
    expect(from(items, 'silent').map(({ probability }) => probability)).toEqual([1, 1])
    expect(items).toHaveLength(25)
  })

  it('is empty where there was nothing', () => {
    expect(draw({})).toEqual([])
  })

  it('is shuffled: what an item is does not show in where it stands', () => {
    const sizes = { withinHour: 12, heard: 60, silent: 60 }
    const places = Array.from({ length: 200 }, (_, seed) =>
      from(draw(sizes, seed + 7), 'withinHour').map(({ ordinal }) => ordinal),
    ).flat()
    const mean = places.reduce((sum, place) => sum + place, 0) / places.length
    // Of 25 places the mean is 13; 2400 of them stray by less than 0.5.
    expect(mean).toBeGreaterThan(12.5)
    expect(mean).toBeLessThan(13.5)
    expect(draw(sizes).map(({ ordinal }) => ordinal)).toEqual(Array.from({ length: 25 }, (_, i) => i + 1))
  })

  it('has at least a fifth read twice, of every sort', () => {
    const twice = Array.from({ length: 60 }, (_, seed) => draw({ withinHour: 11, heard: 60 }, seed + 3)).map(
      (items) => {
        const again = items.filter((item) => item.twice)
        expect(again.length / items.length).toBeGreaterThanOrEqual(0.2)
        return again
      },
    )
    expect(twice.flat().some(({ stratum }) => stratum === 'within-1h')).toBe(true)
    expect(twice.flat().some(({ stratum }) => stratum === 'day-heard')).toBe(true)
    expect(draw({ atOnce: 1 })[0]?.twice).toBe(true)
  })

  it('gives each of a group the same chance', () => {
    const seen = new Map<string, number>()
    for (let seed = 1; seed <= 400; seed++)
      for (const { patientId } of from(draw({ heard: 50, silent: 50 }, seed * 977), 'heard'))
        seen.set(patientId, (seen.get(patientId) ?? 0) + 1)
    // 12 or 13 of 50 each time: about 100 of 400; five standard deviations are 43.
    expect(seen.size).toBe(50)
    for (const times of seen.values()) expect(Math.abs(times - 100)).toBeLessThan(44)
  })
})
