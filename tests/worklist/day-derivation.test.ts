import { beforeEach, describe, expect, it } from 'vitest'
import { receiveReport } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { readDayDerivation } from '../../lib/worklist/day-derivation.ts'
import { readPatientPage } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const send = (patientId: string, key: string, hours: number, body: object, by = nurse) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'phone-in', source: by.id, by: by.id, key, body },
    at(hours),
  )

describe('how a day came about', () => {
  it('has the sum of the page, and who gave each report when', async () => {
    const { patientId, drain } = await patient()
    const reading = (hours: number, volumeMl: number) => ({
      readings: [{ drain, at: iso(hours), volumeMl }],
      flushes: [{ drain, at: iso(hours), volumeMl: 10 }],
      reporter: 'phone-in',
    })
    for (let day = 0; day < 4; day++)
      await send(patientId, `k${day}`, 24 * day + 24.5, reading(24 * day + 24, 400 + day))
    const page = await readPatientPage(nurse, patientId, at(100))
    for (const { date, netMl } of page.assessment.drains[0]?.days ?? []) {
      const found = await readDayDerivation(nurse, patientId, drain, date, at(100))
      expect(found.day.netMl).toBe(netMl)
      for (const { report, receivedAt } of found.stretches.flatMap(({ readings }) => readings))
        expect([receivedAt, found.reports[report]?.enteredBy]).toEqual([
          page.record.reports.find(({ id }) => id === report)?.receivedAt,
          nurse.name,
        ])
    }
    const views = await read((tx) => tx.accessRecord.count({ where: { action: 'view-patient', patientId } }))
    expect(views).toBe(1)
  })

  it('answers for no other clinic’s patient, no other drain, and no day that the drain did not have', async () => {
    const { patientId, drain } = await patient()
    const other = await patient()
    const ask = (who: typeof nurse, of: string, date: string) =>
      readDayDerivation(who, patientId, of, date, at(30))
    await expect(ask(stranger, drain, '2026-03-02')).rejects.toMatchObject({ kind: 'not-found' })
    await expect(ask(nurse, other.drain, '2026-03-02')).rejects.toMatchObject({ kind: 'not-found' })
    for (const date of ['2026-03-04', '1999-01-01', '2026-02-30', 'today'])
      await expect(ask(nurse, drain, date)).rejects.toMatchObject({
        kind: 'invalid-input',
        faults: [{ field: 'date', value: date, message: expect.stringMatching(/^accepted: a date from /) }],
      })
    expect((await ask(nurse, drain, '2026-03-03')).day).toMatchObject({ netMl: null, coverage: 0 })
  })
})
