import { beforeEach, describe, expect, it } from 'vitest'
import { changeOrders, enrol } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { readPatientPage } from '../../lib/worklist/index.ts'
import { at, enrolment, iso, nurse, openClinics, otherNurse, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const views = (patientId: string) =>
  read((tx) => tx.accessRecord.findMany({ where: { action: 'view-patient', patientId } }))

describe('the view of a patient’s page', () => {
  it('is one view as long as it stays open and reads itself again', async () => {
    const { patientId } = await patient()
    await readPatientPage(nurse, patientId, at(1))
    for (let minutes = 5; minutes <= 60; minutes += 5)
      await readPatientPage(nurse, patientId, at(1 + minutes / 60), 'live')
    expect(await views(patientId)).toHaveLength(1)
  })
  it('is entered for each person, each opening, and a read after a pause', async () => {
    const { patientId } = await patient()
    await readPatientPage(nurse, patientId, at(100))
    await readPatientPage(otherNurse, patientId, at(100.01), 'live')
    await readPatientPage(nurse, patientId, at(100.02))
    await readPatientPage(nurse, patientId, at(101), 'live')
    expect((await views(patientId)).map(({ at: when, staffId }) => [when, staffId])).toEqual([
      [iso(100), nurse.id],
      [iso(100.01), otherNurse.id],
      [iso(100.02), nurse.id],
      [iso(101), nurse.id],
    ])
  })
  it('says when somebody opened it, not that it read itself again', async () => {
    const { patientId } = await patient()
    const readAt = async () =>
      (await read((tx) => tx.patientState.findUniqueOrThrow({ where: { patientId } }))).readAt
    expect(await readAt()).toBeNull()
    await readPatientPage(nurse, patientId, at(200), 'live')
    expect(await readAt()).toBeNull()
    await readPatientPage(nurse, patientId, at(201))
    await readPatientPage(nurse, patientId, at(202), 'live')
    expect(await readAt()).toBe(iso(201))
    // A form that takes from it whose it is shows nothing of what came: the view is recorded, and nobody has read it.
    await readPatientPage(nurse, patientId, at(202.01), 'beside')
    expect(await readAt()).toBe(iso(201))
    expect((await views(patientId)).map((one) => one.at)).toContain(iso(202.01))
  })
})

describe('what the page holds', () => {
  it('each version of the orders, the one in force first, with who set a threshold and why', async () => {
    const { patientId, drain } = await patient()
    await changeOrders(
      nurse,
      patientId,
      drain,
      { why: 'low output since the start', overrides: { declineRatio: 0.3 }, dressingType: 'clear film' },
      'k',
      at(2),
    )
    const { orders, thresholds } = await readPatientPage(nurse, patientId, at(3))
    expect(orders[drain]).toMatchObject([
      {
        version: 2,
        validFrom: iso(2),
        why: 'low output since the start',
        dressingType: 'clear film',
        overrides: [
          { name: 'declineRatio', value: 0.3, by: nurse.name, at: iso(2), why: 'low output since the start' },
        ],
      },
      { version: 1, dressingType: null, overrides: [] },
    ])
    expect(thresholds.declineRatio).toMatchObject({ value: 0.5, min: 0.1, max: 0.9 })
  })
  it('who else of the clinic has a like name and birth date', async () => {
    const body = enrolment({ name: 'Marlow, Ada Jane', birthDate: '1960-05-17' })
    const { patientId } = await enrol(nurse, body, 'one', at(0))
    const other = enrolment({ name: 'Ada Marlow', birthDate: '1960-05-18', notSameAs: [patientId] })
    const { patientId: second } = await enrol(nurse, other, 'two', at(0))
    await enrol(nurse, enrolment({ name: 'Ada Marlow', birthDate: '1988-11-02' }), 'three', at(0))
    const { alike } = await readPatientPage(nurse, patientId, at(1))
    expect(alike.map((one) => one.patientId)).toEqual([second])
    expect((await views(patientId))[0]?.what).toContain(second)
  })
})
