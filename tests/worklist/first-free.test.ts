import { beforeEach, describe, expect, it } from 'vitest'
import { receiveReport } from '../../lib/intake/index.ts'
import { listen } from '../../lib/notify/bus.ts'
import { read } from '../../lib/store/index.ts'
import { readWorklist, takeFirstFree, takeRow } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, otherNurse, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

/** A patient whose row stands at once (`out`) or within an hour (a leak). */
async function standing(symptom: { position: 'out' } | { leak: true }, hours = 1): Promise<string> {
  const { patientId, drain } = await patient()
  const body = { symptoms: { at: iso(hours), drains: [{ drain, ...symptom }] } }
  await receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: 'k', body },
    at(hours),
  )
  return patientId
}

describe('the first free row', () => {
  it('is the first of the list that nobody has', async () => {
    await standing({ leak: true })
    await standing({ position: 'out' })
    const order = (await readWorklist(nurse, at(1.1))).rows.map(({ patientId }) => patientId)
    const first = await takeFirstFree(nurse, 'a', at(1.1))
    expect(first).toMatchObject({
      patientId: order[0],
      hold: { staffId: nurse.id, until: iso(1.1 + 1 / 12) },
    })
    expect(await takeFirstFree(otherNurse, 'b', at(1.1))).toMatchObject({ patientId: order[1] })
  })

  it('passes over what somebody has, and takes what has lapsed', async () => {
    const [out, leak] = [await standing({ position: 'out' }), await standing({ leak: true })]
    await takeRow(otherNurse, out, at(1.1))
    expect((await takeFirstFree(nurse, 'a', at(1.1))).patientId).toBe(leak)
    expect((await takeFirstFree(nurse, 'b', at(1.3))).patientId).toBe(out)
  })

  it('is not the row that was just left, however much it presses', async () => {
    const [out, leak] = [await standing({ position: 'out' }), await standing({ leak: true })]
    expect((await takeFirstFree(nurse, 'a', at(1.1), out)).patientId).toBe(leak)
  })

  it('is another one for each of many who press at once', async () => {
    const rows = []
    for (let i = 0; i < 6; i++) rows.push(await standing({ leak: true }))
    const nurses = Array.from({ length: 8 }, (_, i) => ({ ...nurse, id: `nurse-${i}`, name: `Nurse ${i}` }))
    const tries = await Promise.allSettled(nurses.map((one) => takeFirstFree(one, one.id, at(1.1))))
    const got = tries.flatMap((tried) => (tried.status === 'fulfilled' ? [tried.value.patientId] : []))
    expect(got.toSorted()).toEqual(rows.toSorted())
    expect(tries.filter(({ status }) => status === 'rejected')).toHaveLength(2)
  })

  it('is the same for a repeat of one press, and both are told', async () => {
    await standing({ leak: true })
    await standing({ leak: true })
    const heard: unknown[] = []
    const stop = listen(CLINIC, (change) => heard.push(change))
    const first = await takeFirstFree(nurse, 'a', at(1.1))
    expect(await takeFirstFree(nurse, 'a', at(1.1))).toEqual(first)
    stop()
    expect(heard).toContainEqual({ patientId: first.patientId, kind: 'hold' })
    const taken = await read((tx) => tx.accessRecord.count({ where: { action: 'take-row' } }))
    expect(taken).toBe(1)
  })

  it('is refused where there is none, and is never another clinic’s', async () => {
    await standing({ leak: true })
    await expect(takeFirstFree(stranger, 'a', at(1.1))).rejects.toMatchObject({ kind: 'not-found' })
  })
})
