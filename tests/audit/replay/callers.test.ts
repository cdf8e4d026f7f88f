import { beforeEach, expect, test } from 'vitest'
import type { StaffMember } from '../../../lib/domain/staff.ts'
import { read } from '../../../lib/store/index.ts'
import { callersOn } from '../../../lib/store/replay-callers.ts'
import { correctCallback, recordCallback, undoCallback } from '../../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, otherNurse, patient } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { key } from './clinic-life.ts'

databasePerTest()
beforeEach(openClinics)

const day = (from: number, until = from + 24) => ({ from: iso(from), until: iso(until) })
const noAnswer = { outcome: 'no-answer' as const }

test('people with a call are counted once a day; what was taken back or replaced is no call', async () => {
  const { patientId } = await patient()
  const call = async (by: StaffMember, hours: number) =>
    (await recordCallback(by, patientId, noAnswer, key(), at(hours))).callback
  await call(nurse, 1)
  await call(nurse, 23.9)
  await call(otherNurse, 12)
  const mistaken = await call(nurse, 25)
  await undoCallback(nurse, patientId, mistaken, at(25 + 30 / 3600))
  await call(nurse, 48)
  const wrong = await call(nurse, 73)
  const corrected = { ...noAnswer, why: 'the call was the other nurse’s' }
  await correctCallback(otherNurse, patientId, wrong, corrected, key(), at(74))

  const counted = (days: { from: string; until: string }[], clinic = CLINIC) =>
    read((tx) => callersOn(tx, clinic, days))
  expect(await counted([day(0), day(24), day(48), day(72)])).toEqual([2, 0, 1, 1])
  expect(await counted([day(0, 12), day(72, 73)])).toEqual([1, 0])
  expect(await counted([day(0)], 'clinic-elsewhere')).toEqual([0])
  expect(await counted([])).toEqual([])
})
