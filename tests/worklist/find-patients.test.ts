import { beforeEach, describe, expect, it } from 'vitest'
import { ZodError } from 'zod'
import { read } from '../../lib/store/index.ts'
import { clinicOf } from '../../lib/worklist/clinic-of.ts'
import { findPatients } from '../../lib/worklist/find-patients.ts'
import { at, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const found = async (find: string, by = nurse) =>
  (await findPatients(by, { find }, at(1))).map(({ patientId }) => patientId)

describe('a patient who phones and has nothing flagged', () => {
  it('is found by name and by record number, in any case, by several words', async () => {
    const { patientId } = await patient()
    const [one] = await findPatients(nurse, { find: 'invented' }, at(1))
    const name = one?.name ?? ''
    expect(await found(name.toUpperCase())).toEqual([patientId])
    expect(await found(one?.recordNumber.toLowerCase() ?? '')).toEqual([patientId])
    expect(await found(`${name.split(' ')[0]} nobody`)).toEqual([])
  })
  it('is found by nobody of another clinic', async () => {
    await patient()
    expect(await found('invented', stranger)).toEqual([])
  })
  it.each(['%%', '__', "' OR 1=1 --"])('%j is looked for as it is written', async (words) => {
    await patient()
    expect(await found(words)).toEqual([])
  })
  it('who was named stands in the access record, an answer that names nobody does not', async () => {
    const { patientId } = await patient()
    await found('invented')
    await found('nobody')
    const entries = await read((tx) => tx.accessRecord.findMany({ where: { action: 'find-patients' } }))
    expect(entries.map(({ what }) => what)).toEqual([`found by search: ${patientId}`])
  })
  it.each([{ find: 'a' }, { find: '' }, {}, null, { find: 'ab', more: 1 }])(
    '%j is not looked for',
    async (body) => {
      await expect(findPatients(nurse, body, at(1))).rejects.toBeInstanceOf(ZodError)
    },
  )
})

it('the clinic of a member of staff is theirs', async () => {
  expect(await clinicOf(nurse)).toMatchObject({
    name: 'Larkfield clinic (invented)',
    timeZone: 'America/Denver',
    demo: true,
  })
})
