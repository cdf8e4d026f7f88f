import { beforeEach, expect, it } from 'vitest'
import { readRules } from '../../../lib/audit/rules/index.ts'
import { changeOrders } from '../../../lib/intake/index.ts'
import { read, write } from '../../../lib/store/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { ada, elsewhere, employ } from './house.ts'

databasePerTest()
beforeEach(async () => {
  await openClinics()
  await employ(ada, elsewhere)
})

const orders = { logEveryHours: 24, dressingEveryHours: 48, flush: null }
let keys = 0
const set = (one: { patientId: string; drain: string }, overrides: object, hours: number) =>
  changeOrders(
    nurse,
    one.patientId,
    one.drain,
    { ...orders, overrides, why: `Set at ${hours}` },
    `own-${++keys}`,
    at(hours),
  )
const own = async (hours: number, who = ada) => (await readRules(who, at(hours))).own

it('lists what was set for single drains with who, when and why, what silences first', async () => {
  const watched = await patient()
  const quieted = await patient()
  await set(watched, { declineRatio: 0.7, feverC: 37.6 }, 1)
  await set(quieted, { stoppedHours: 16 }, 2)
  await set(watched, { severePain: 9 }, 3)
  const rows = await own(4)
  expect(rows.map(({ threshold, value, clinic, silences }) => [threshold, value, clinic, silences])).toEqual([
    ['stoppedHours', 16, 8, true],
    ['severePain', 9, 7, true],
    ['declineRatio', 0.7, 0.5, false],
    ['feverC', 37.6, 38, false],
  ])
  expect(rows[0]).toMatchObject({
    patientId: quieted.patientId,
    drain: 'left kidney',
    by: nurse.name,
    at: iso(2),
    why: 'Set at 2',
  })
  const seen = await read((tx) =>
    tx.accessRecord.findFirstOrThrow({ where: { action: 'view-rule-sets' }, orderBy: { seq: 'desc' } }),
  )
  expect(seen).toMatchObject({ clinicId: CLINIC, staffId: ada.id })
  expect(seen.what).toContain(watched.patientId)
  expect(await own(4, elsewhere)).toEqual([])
})

it('leaves out what was taken back, drains that are out, and whose follow-up has ended', async () => {
  const [back, out, ended] = [await patient(), await patient(), await patient()]
  for (const one of [back, out, ended]) await set(one, { feverC: 38.5 }, 1)
  expect(await own(2)).toHaveLength(3)
  await set(back, { feverC: null }, 3)
  await write((tx) =>
    tx.staffEvent.create({
      data: {
        ...{ id: 'out', clinicId: CLINIC, patientId: out.patientId, drainId: out.drain, type: 'removed' },
        ...{ at: iso(3), recordedAt: iso(3), recordedBy: nurse.id },
      },
    }),
  )
  await write((tx) =>
    tx.patient.update({ where: { id: ended.patientId }, data: { followUpEndedAt: iso(3) } }),
  )
  expect(await own(4)).toEqual([])
})
