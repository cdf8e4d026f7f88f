import { readFileSync } from 'node:fs'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { reassess } from '../../lib/assessment/reassess.ts'
import { PatientPage } from '../../lib/domain/patient-page.ts'
import { enrol } from '../../lib/intake/index.ts'
import { closeStore, read, write } from '../../lib/store/index.ts'
import { readPatientPage, recordCallback, recordStaffEvent } from '../../lib/worklist/index.ts'
import { at, enrolment, iso, nurse, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { storeReports } from './many-reports.ts'

const database = databasePerTest()
beforeEach(openClinics)
afterEach(() => vi.unstubAllEnvs())

const DAY = 24
/** The page as a browser takes it: it is refused there if it is not of its shape. */
const pageOf = async (patientId: string, hours: number): Promise<PatientPage> =>
  PatientPage.parse(JSON.parse(JSON.stringify(await readPatientPage(nurse, patientId, at(hours)))))
const emptied = (drain: string, hours: number, volumeMl: number) => ({
  hours,
  says: { readings: [{ drain, at: iso(hours), volumeMl, appearance: 'clear' as const }] },
})
const netOf = ({ assessment }: PatientPage, drain: string) =>
  (assessment.drains.find((one) => one.drain === drain)?.days ?? []).reduce(
    (sum, { netMl }) => sum + (netMl ?? 0),
    0,
  )
/** What the store holds of a drain: emptied less flushed. */
const inStore = async (drainId: string) => {
  const emptied = await read((tx) => tx.reading.aggregate({ where: { drainId }, _sum: { volumeMl: true } }))
  const flushed = await read((tx) => tx.flush.aggregate({ where: { drainId }, _sum: { volumeMl: true } }))
  return (emptied._sum.volumeMl ?? 0) - (flushed._sum.volumeMl ?? 0)
}
const placed = (hours: number) => ({ placedAt: iso(hours) })

describe('a patient’s page', () => {
  it('of nobody who reported yet says nothing of any day', async () => {
    const { patientId, drain } = await patient()
    const { record, assessment, flags, events } = await pageOf(patientId, 2)
    expect(record.reports).toEqual([])
    expect(assessment.drains).toMatchObject([{ drain, days: [] }])
    expect([flags, events]).toEqual([[], []])
  })

  it('of one report shows the part of the days that it covers', async () => {
    const { patientId, drain } = await patient(0, placed(0))
    await storeReports(patientId, [emptied(drain, 10, 180)])
    const page = await pageOf(patientId, 11)
    expect(netOf(page, drain)).toBeCloseTo(180, 6)
    expect(page.assessment.drains[0]?.days.every(({ coverage }) => coverage < 1)).toBe(true)
  })

  it('of a drain without baseline says how many days it still needs', async () => {
    const { patientId, drain } = await patient(0, { ...placed(0), usualMlPerDay: null })
    await storeReports(patientId, [emptied(drain, 24, 300), emptied(drain, 48, 320)])
    const [output] = (await pageOf(patientId, 49)).assessment.drains
    expect(output).toMatchObject({ drain, baselineMlPerDay: null })
    expect(output?.cannotTell.join(' ')).toMatch(/baseline/i)
  })

  it('keeps each millilitre over a day of 23 hours and one of 25', async () => {
    // Denver springs forward on 8 March 2026, 144 h after the beginning, and falls back on 1 November.
    for (const [from, days] of [
      [5 * DAY, 4],
      [242 * DAY, 4],
    ] as const) {
      const { patientId, drain } = await patient(from, placed(from))
      const reports = Array.from({ length: days * 4 }, (_, i) => emptied(drain, from + (i + 1) * 6, 90 + i))
      await storeReports(patientId, reports)
      const page = await pageOf(patientId, from + days * DAY)
      expect(page.assessment.drains[0]?.days.map(({ hours }) => hours)).toContain(from === 120 ? 23 : 25)
      expect(netOf(page, drain)).toBeCloseTo(await inStore(drain), 6)
    }
  })

  it('of ten drains over two years shows each, with its own days, and those that are out', async () => {
    const drains = Array.from({ length: 10 }, (_, i) => ({
      ...enrolment().drains[0],
      ...placed(-700 * DAY + i * 70 * DAY),
      label: `tube ${i + 1}`,
    }))
    const body = enrolment({ drains, enrolledAt: iso(-700 * DAY) })
    const { patientId } = await enrol(nurse, body, 'ten', at(0))
    const kept = (await pageOf(patientId, 0.1)).record.drains
    expect(kept).toHaveLength(10)
    for (const [i, { id }] of kept.slice(0, 5).entries())
      await recordStaffEvent(nurse, patientId, { at: iso(-i), drain: id, type: 'removed' }, `r${i}`, at(0.2))
    await storeReports(
      patientId,
      kept.slice(5).flatMap(({ id }, i) => [emptied(id, DAY, 100 + i), emptied(id, 2 * DAY, 200 + i)]),
    )
    const page = await pageOf(patientId, 2 * DAY + 1)
    expect(page.events).toHaveLength(5)
    expect(Object.keys(page.labels)).toHaveLength(10)
    for (const { id } of kept.slice(5)) expect(netOf(page, id)).toBeCloseTo(await inStore(id), 6)
  })

  it('of ten thousand reports is whole: no millilitre is lost', { timeout: 60_000 }, async () => {
    const { patientId, drain } = await patient(0, placed(0))
    const reports = Array.from({ length: 10_000 }, (_, i) => {
      const hours = (i + 1) * 0.9
      const { says } = emptied(drain, hours, 20 + (i % 7))
      const flushes = i % 25 === 0 ? [{ drain, at: iso(hours), volumeMl: 10, ease: 'easy' as const }] : []
      return { hours, says: { ...says, flushes } }
    })
    await storeReports(patientId, reports)
    const page = await pageOf(patientId, 10_000 * 0.9 + 1)
    expect(page.record.reports).toHaveLength(10_000)
    expect(netOf(page, drain)).toBeCloseTo(await inStore(drain), 3)
  })

  it.each([
    ['from right to left', 'ליאורה אבן־חן (دعوة) (invented)'],
    ['with combining marks', 'Nguye\u0302\u0303n Z\u0308o\u0308e\u0301 O\u0328 (invented)'],
    ['beyond the basic plane', '𠮷野 𞤀𞤣𞤢𞤥 (invented)'],
    ['as long as it may be', `${'Maximiliana-Philippa '.repeat(9)}(invented)`],
  ])('of a name %s gives it back letter for letter', async (_what, name) => {
    const { patientId } = await enrol(nurse, enrolment({ name }), 'name', at(0))
    expect((await pageOf(patientId, 1)).patient.name.normalize()).toBe(name.normalize())
  })
})

describe('what a page costs', () => {
  it.each(['recent', 'whole'] as const)(
    'is as many statements for a full record as for an empty one: %s',
    async (reach) => {
      await closeStore()
      const log = path.join(database.folder, 'queries.log')
      vi.stubEnv('OUTFLOW_TEST_MODE', '1')
      vi.stubEnv('OUTFLOW_QUERY_LOG', log)
      const lines = () => readFileSync(log, 'utf8').trim().split('\n').length
      const costOf = async (patientId: string, hours: number) => {
        await write((tx) => reassess(tx, patientId, at(hours)))
        await readPatientPage(nurse, patientId, at(hours), 'live', reach)
        const before = lines()
        await readPatientPage(nurse, patientId, at(hours), 'live', reach)
        return lines() - before
      }
      const empty = await patient()
      const few = await costOf(empty.patientId, 1)

      const drains = Array.from({ length: 6 }, (_, i) => ({ ...enrolment().drains[0], label: `tube ${i}` }))
      const { patientId } = await enrol(nurse, enrolment({ drains }), 'six', at(0))
      const kept = (await pageOf(patientId, 0.1)).record.drains
      await storeReports(
        patientId,
        kept.flatMap(({ id }) => Array.from({ length: 60 }, (_, i) => emptied(id, (i + 1) * 12, 100 + i))),
      )
      for (const [i, { id }] of kept.entries()) {
        await recordStaffEvent(
          nurse,
          patientId,
          { at: iso(720), drain: id, type: 'capped' },
          `e${i}`,
          at(720),
        )
        await recordCallback(nurse, patientId, { outcome: 'no-answer' }, `c${i}`, at(721 + i))
      }
      expect((await pageOf(patientId, 800)).flags.length).toBeGreaterThan(5)
      expect(await costOf(patientId, 801)).toBe(few)
    },
  )
})
