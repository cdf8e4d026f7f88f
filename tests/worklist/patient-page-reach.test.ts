import { beforeEach, describe, expect, it } from 'vitest'
import { reassess } from '../../lib/assessment/reassess.ts'
import { callSheet } from '../../lib/domain/call-sheet.ts'
import { PatientPage } from '../../lib/domain/patient-page.ts'
import { standingReports } from '../../lib/domain/standing-reports.ts'
import type { Submission } from '../../lib/domain/submission.ts'
import { changeOrders, receiveReport } from '../../lib/intake/index.ts'
import { write } from '../../lib/store/index.ts'
import { readPatientPage } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { storeReports } from './many-reports.ts'

databasePerTest()
beforeEach(openClinics)

const DAY = 24
type Told = { hours: number; says: Submission }

const page = async (patientId: string, hours: number, reach: 'recent' | 'whole'): Promise<PatientPage> =>
  PatientPage.parse(
    JSON.parse(JSON.stringify(await readPatientPage(nurse, patientId, at(hours), 'live', reach))),
  )
const assessed = (patientId: string, hours: number) => write((tx) => reassess(tx, patientId, at(hours)))

/** Somebody who empties twice a day, and flushes and says how they are in the morning; in the last days less comes. */
async function reporting(days: number, without: (hours: number) => boolean = () => false) {
  const { patientId, drain } = await patient(0, { placedAt: iso(0) })
  const reports = Array.from({ length: days * 2 }, (_, i): Told => {
    const hours = (i + 1) * 12
    const volumeMl = hours > (days - 3) * DAY ? 60 : 200 + (i % 5)
    return {
      hours,
      says: {
        readings: [{ drain, at: iso(hours), volumeMl, appearance: 'clear' }],
        ...(i % 2 === 0
          ? {
              flushes: [{ drain, at: iso(hours), volumeMl: 10, ease: 'easy' }],
              symptoms: { at: iso(hours), temperatureC: 36.8, pain: 2, drains: [{ drain, leak: i > 40 }] },
            }
          : {}),
      },
    }
  }).filter(({ hours }) => !without(hours))
  await storeReports(patientId, reports)
  await assessed(patientId, days * DAY)
  return { patientId, drain }
}

describe('a page that reaches back over the last days', () => {
  it('says what the rules say of the whole record, and how much it leaves out', async () => {
    const { patientId } = await reporting(100)
    for (const later of [0, 5, 25]) {
      const hours = 100 * DAY + later
      const [recent, whole] = [await page(patientId, hours, 'recent'), await page(patientId, hours, 'whole')]
      const { before, reports } = recent.leftOut ?? { before: '9', reports: 0 }
      for (const one of [recent, whole]) expect(one.from).toBe(iso(hours - 400 * DAY))
      // Once time alone has changed something the whole is read, so that nothing old is said.
      if (recent.leftOut) {
        expect(recent.record.reports.length + reports).toBe(200)
        expect(recent.record.reports).toEqual(whole.record.reports.slice(reports))
        expect(recent.record.reports.length).toBeLessThan(70)
      }
      const cut = (days: PatientPage['assessment']['drains'][number]['days']) =>
        recent.leftOut ? days.filter(({ date }) => date >= before) : days
      expect(recent.assessment).toEqual({
        ...whole.assessment,
        drains: whole.assessment.drains.map((one) => ({ ...one, days: cut(one.days) })),
      })
      expect(whole.assessment.findings.length).toBeGreaterThan(0)
      const now = at(hours).getTime()
      expect(callSheet(recent, now)).toEqual(callSheet(whole, now))
      if (later === 0) expect(recent.assessment.drains[0]?.days.length).toBeGreaterThanOrEqual(30)
    }
    expect((await page(patientId, 100 * DAY, 'recent')).leftOut).not.toBeNull()
    expect((await page(patientId, 100 * DAY, 'whole')).leftOut).toBeNull()
  })

  it('leaves nothing out of a short record', async () => {
    const { patientId } = await reporting(9)
    const recent = await page(patientId, 9 * DAY, 'recent')
    expect(recent).toEqual(await page(patientId, 9 * DAY, 'whole'))
    expect([recent.leftOut, recent.record.reports.length]).toEqual([null, 18])
  })

  it('of somebody long silent still has the last reports', async () => {
    const { patientId } = await reporting(60)
    const hours = 200 * DAY
    await assessed(patientId, hours)
    const { leftOut, record, assessment } = await page(patientId, hours, 'recent')
    expect(record.reports).toHaveLength(20)
    expect(leftOut?.reports).toBe(100)
    expect(assessment.drains[0]?.days.at(-1)?.netMl).toBeNull()
  })

  it('has what a correction corrects, however old, and counts neither twice', async () => {
    const { patientId, drain } = await reporting(100)
    const old = (await page(patientId, 100 * DAY, 'whole')).record.reports[100]
    const door = { clinicId: CLINIC, patientId, door: 'phone-in' as const, source: nurse.id, by: nurse.id }
    for (const [i, volumeMl] of [150, 160].entries()) {
      const body = { readings: [{ drain, at: old?.readings?.[0]?.at, volumeMl }], supersedes: old?.id }
      await receiveReport({ ...door, key: `k${i}`, body }, at(100 * DAY + 0.1 * i))
    }
    const { leftOut, record } = await page(patientId, 100 * DAY + 0.2, 'recent')
    expect(leftOut?.reports).toBe(100)
    expect(record.reports[0]?.id).toBe(old?.id)
    expect(standingReports(record.reports)).toHaveLength(100)
  })

  it('reads the whole where something came that the stored assessment does not know', async () => {
    const { patientId, drain } = await reporting(100)
    const hours = 100 * DAY + 0.5
    expect((await page(patientId, hours, 'recent')).leftOut).not.toBeNull()
    await storeReports(patientId, [{ hours, says: { readings: [{ drain, at: iso(hours), volumeMl: 999 }] } }])
    const recent = await page(patientId, hours, 'recent')
    expect(recent).toEqual(await page(patientId, hours, 'whole'))
  })

  it('reads the whole where the last flush is older than the last days: the call sheet names it', async () => {
    const { patientId, drain } = await reporting(100, (hours) => hours % DAY === 12 && hours > 50 * DAY)
    expect((await page(patientId, 100 * DAY, 'recent')).leftOut).not.toBeNull()
    const orders = { why: 'to be flushed', flush: { volumeMl: 10, everyHours: 24 } }
    await changeOrders(nurse, patientId, drain, orders, 'k', at(100 * DAY))
    expect((await page(patientId, 100 * DAY, 'recent')).leftOut).toBeNull()
  })
})
