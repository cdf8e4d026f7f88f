import { beforeEach, describe, expect, it } from 'vitest'
import { read } from '../../lib/store/index.ts'
import { readPatientPage, readSlowChange } from '../../lib/worklist/index.ts'
import { at, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const views = (patientId: string) =>
  read((tx) => tx.accessRecord.findMany({ where: { action: 'view-patient', patientId } }))

describe('the slow-change chart of a patient’s page', () => {
  it('says of each drain why there is none yet', async () => {
    const { patientId, drain } = await patient()
    expect(await readSlowChange(nurse, patientId, at(300))).toEqual([
      { drain, chart: null, why: 'Too few whole days: 0 of 8, or staff closed the fall lately.' },
    ])
  })
  it('is part of the view of the page that asks, and a view of its own without one', async () => {
    const { patientId } = await patient()
    await readPatientPage(nurse, patientId, at(310))
    await readSlowChange(nurse, patientId, at(310.1))
    expect(await views(patientId)).toHaveLength(1)
    await readSlowChange(nurse, patientId, at(312))
    expect((await views(patientId)).map(({ what }) => what)).toContain('read the slow-change chart')
  })
  it('of another clinic’s patient is answered like nobody’s', async () => {
    const { patientId } = await patient()
    await expect(readSlowChange(stranger, patientId, at(1))).rejects.toThrow('There is no such patient')
    await expect(readSlowChange(nurse, 'nobody', at(1))).rejects.toThrow('There is no such patient')
  })
})
