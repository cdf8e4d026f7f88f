import { beforeEach, describe, expect, it } from 'vitest'
import { hoursOf } from '../../lib/domain/numbers.ts'
import { receiveReport } from '../../lib/intake/index.ts'
import { write } from '../../lib/store/index.ts'
import { recordCallback } from '../../lib/worklist/index.ts'
import { firstAttempts, readNumbers } from '../../lib/worklist/numbers.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let keys = 0

/** A patient who reports chills at that hour after 01:00 in Denver: within 1 hour. */
async function chills(hours: number, symptoms: object = {}) {
  const { patientId, drain } = await patient(hours - 0.5)
  const body = {
    readings: [{ drain, at: iso(hours), volumeMl: 380, appearance: 'clear' }],
    symptoms: {
      at: iso(hours),
      temperatureC: 36.9,
      chills: true,
      pain: 0,
      general: [],
      drains: [],
      ...symptoms,
    },
  }
  const key = `n-${++keys}`
  await receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: 's', by: null, key, body },
    at(hours),
  )
  return patientId
}
const call = (patientId: string, hours: number, outcome = 'no-answer', more: object = {}) =>
  recordCallback(nurse, patientId, { outcome, ...more }, `c-${++keys}`, at(hours))
const reached = { spokenTo: 'patient', agreed: ['watch-and-report'] }

describe('the numbers of a day made by hand', () => {
  it('counts what waits, what is overdue, the medians and the hours', async () => {
    // 2 March 2026, 08:00 UTC is 01:00 in Denver. Waits of 10, 30 and 50 minutes; one is not tried.
    const a = await chills(7.1) // 08:06
    const b = await chills(7.2) // 08:12
    const c = await chills(8.5, { general: ['fainted'] }) // 09:30, at once
    await chills(9) // 10:00
    await call(a, 7.1 + 10 / 60) // 08:16
    await call(b, 7.2 + 30 / 60) // 08:42
    await call(b, 8.1, 'reached', reached) // 09:06
    await call(c, 8.5 + 50 / 60) // 10:20

    const numbers = await readNumbers(nurse, at(9.6)) // 10:36
    expect(numbers.date).toBe('2026-03-02')
    expect(numbers.waiting).toEqual([
      { urgency: 'at-once', rows: 1, overdue: 1 },
      { urgency: 'within-1h', rows: 3, overdue: 2 },
      { urgency: 'within-24h', rows: 0, overdue: 0 },
      { urgency: 'within-3d', rows: 0, overdue: 0 },
    ])
    expect(numbers.first).toEqual([
      { urgency: 'all', opened: 4, tried: 3, medianMinutes: 30 },
      { urgency: 'at-once', opened: 1, tried: 1, medianMinutes: 50 },
      { urgency: 'within-1h', opened: 3, tried: 2, medianMinutes: 20 },
      { urgency: 'within-24h', opened: 0, tried: 0, medianMinutes: null },
      { urgency: 'within-3d', opened: 0, tried: 0, medianMinutes: null },
    ])
    const hours = Object.fromEntries(
      numbers.hours.map(({ label, opened, attempts, reached: spoken }) => [
        label,
        [opened, attempts, spoken],
      ]),
    )
    expect(hours).toMatchObject({
      '07:00': [0, 0, 0],
      '08:00': [2, 2, 0],
      '09:00': [1, 1, 1],
      '10:00': [1, 1, 0],
      '11:00': [null, null, null],
    })
    expect(numbers.hours).toHaveLength(24)
  })

  it('leaves yesterday, another clinic and what was taken back out', async () => {
    const a = await chills(-9) // 16:00 on the day before
    await call(a, -8)
    await call(a, 8)
    await write((tx) =>
      tx.callback.updateMany({ where: { at: iso(8) }, data: { undoneAt: iso(8.01), undoneBy: nurse.id } }),
    )
    const today = await readNumbers(nurse, at(9))
    expect(today.first[0]).toEqual({ urgency: 'all', opened: 0, tried: 0, medianMinutes: null })
    expect(today.hours.reduce((sum, { attempts }) => sum + (attempts ?? 0), 0)).toBe(0)
    expect((await readNumbers(stranger, at(9))).waiting.every(({ rows }) => rows === 0)).toBe(true)
  })
})

describe('the hours of a day', () => {
  it('are 23, 24 or 25, by the clinic’s own clock', () => {
    expect(hoursOf('2026-03-02', 'America/Denver')).toHaveLength(24)
    expect(hoursOf('2026-03-08', 'America/Denver')).toHaveLength(23)
    const back = hoursOf('2026-11-01', 'America/Denver')
    expect(back.map(({ label }) => label).slice(0, 4)).toEqual(['00:00', '01:00', '01:00 again', '02:00'])
    expect(back).toHaveLength(25)
    expect(back.at(-1)?.until).toBe('2026-11-02T07:00:00.000Z')
  })

  it('give an even count its middle', () => {
    const wait = (minutes: number) => ({
      rank: 3,
      openedAt: '2026-03-02T15:00:00.000Z',
      triedAt: new Date(Date.parse('2026-03-02T15:00:00.000Z') + minutes * 60_000).toISOString(),
    })
    expect(firstAttempts([wait(4), wait(8)])[0]?.medianMinutes).toBe(6)
  })
})
