import { beforeEach, describe, expect, it } from 'vitest'
import { KindCourse } from '../../lib/domain/kind-course.ts'
import { receiveReport } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { computeKindCourses, courseOf, readKindCourse } from '../../lib/worklist/kind-course.ts'
import { computeDue } from '../../lib/worklist/kind-course-timer.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const failed = (error: unknown) => expect.unreachable(String(error))
const sample = (i: number, netMl: number, kind: 'bulb' | 'biliary' = 'bulb', patientId = `p${i}`) => ({
  patientId,
  kind,
  days: [{ day: 0, netMl }, ...(i < 9 ? [{ day: 1, netMl: 1 }] : [])],
})

describe('the usual course of a kind', () => {
  it('is the median and the quartiles of each day on which ten patients count', () => {
    const ten = Array.from({ length: 10 }, (_, i) => sample(i, (i + 1) * 100))
    // R: quantile(seq(100, 1000, 100), c(.25, .5, .75)) gives 325 550 775.
    expect(courseOf('bulb', [...ten, sample(1, 9999, 'biliary')])).toEqual({
      kind: 'bulb',
      drains: 10,
      days: [{ day: 0, n: 10, median: 550, q1: 325, q3: 775 }],
    })
    expect(courseOf('bulb', ten.slice(1))).toEqual({ kind: 'bulb', drains: 0, days: [] })
  })
  it('counts patients, not drains', () => {
    const ofTwo = Array.from({ length: 18 }, (_, i) => sample(i, 50, 'bulb', `p${i % 9}`))
    expect(courseOf('bulb', ofTwo).days).toEqual([])
    const [first] = courseOf('bulb', [...ofTwo, sample(9, 50)]).days
    expect(first?.n).toBe(19)
  })
})

/** So many patients, each with two days of so much. */
async function people(volumes: readonly number[]): Promise<{ patientId: string; drain: string }[]> {
  const list = []
  for (const [i, volumeMl] of volumes.entries()) {
    const one = await patient(4, { placedAt: iso(0) })
    list.push(one)
    for (const hours of [24, 48, 72])
      await receiveReport(
        {
          clinicId: CLINIC,
          patientId: one.patientId,
          door: 'check-in',
          source: 's',
          by: null,
          key: `k${i}-${hours}`,
          body: { readings: [{ drain: one.drain, at: iso(hours), volumeMl }] },
        },
        at(hours),
      )
  }
  return list
}

describe('kept in the store', () => {
  it('is answered for a drain of that kind, to its own clinic alone', async () => {
    const [one] = await people([100, 200, 300, 400, 500, 600, 700, 800, 900, 1000])
    const { patientId, drain } = one as { patientId: string; drain: string }
    expect(await readKindCourse(nurse, patientId, drain, at(80))).toBeNull()
    await computeKindCourses(CLINIC, at(80), failed)
    const course = KindCourse.parse(await readKindCourse(nurse, patientId, drain, at(80)))
    expect(course).toMatchObject({ kind: 'nephrostomy', drains: 10 })
    // The first day is heard of from five in the morning on, so it is not whole.
    expect(course.days.map(({ day }) => day)).toEqual([1, 2])
    expect(course.days[1]).toEqual({ day: 2, n: 10, median: 550, q1: 325, q3: 775 })
    await expect(readKindCourse(stranger, patientId, drain, at(80))).rejects.toMatchObject({
      kind: 'not-found',
    })
    await expect(readKindCourse(nurse, patientId, 'no drain', at(80))).rejects.toMatchObject({
      kind: 'not-found',
    })
  })
  it('is nothing for fewer than ten', async () => {
    const [one] = await people([100, 200])
    await computeKindCourses(CLINIC, at(80), failed)
    expect(await readKindCourse(nurse, one?.patientId ?? '', one?.drain ?? '', at(80))).toBeNull()
  })
  it('is worked out at once where it never was, then once a night', async () => {
    const due = (hours: number) => computeDue(at(hours), failed)
    // at(0) is one in the morning in Denver.
    expect(await due(0)).toEqual(['clinic-elsewhere', CLINIC])
    expect(await due(10)).toEqual([])
    expect(await due(25)).toEqual([])
    expect(await due(26.1)).toHaveLength(2)
    expect(await due(30)).toEqual([])
    expect(await read((tx) => tx.kindCourse.count())).toBe(14)
  })
})
