import { beforeEach, describe, expect, it } from 'vitest'
import type { StaffMember } from '../../lib/domain/staff.ts'
import { changeOrders, receiveReport, undoOrders } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { readPatientPage, recordCallback } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, otherNurse, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const SECOND = 1 / 3600
const change = (patientId: string, drain: string, hours: number, body: object, by: StaffMember = nurse) =>
  changeOrders(by, patientId, drain, { why: 'as agreed', ...body }, `o${++count}`, at(hours))
const undo = (patientId: string, drain: string, version: number, hours: number, by: StaffMember = nurse) =>
  undoOrders(by, patientId, drain, version, at(hours))
const planAt = async (patientId: string, hours: number) =>
  (await read((tx) => composeRecord(tx, patientId, at(hours))))?.record.drains[0]?.plan
const flagsOf = (patientId: string) =>
  read(async (tx) =>
    (await tx.flag.findMany({ where: { patientId }, orderBy: { id: 'asc' } })).map(
      ({ changedAt: _, finding: __, ...flag }) => flag,
    ),
  )

/** A fever of 38.4 °C of which the patient was spoken to. */
async function fever() {
  const { patientId, drain } = await patient()
  const body = { symptoms: { at: iso(1), temperatureC: 38.4 } }
  const incoming = { clinicId: CLINIC, patientId, door: 'check-in' as const, source: patientId, by: null }
  await receiveReport({ ...incoming, key: `k${++count}`, body }, at(1))
  const call = { outcome: 'reached', spokenTo: 'patient', agreed: ['watch-and-report'], closes: [] }
  await recordCallback(nurse, patientId, call, `c${++count}`, at(1.5))
  return { patientId, drain }
}

describe('a change of orders', () => {
  it('is seen by the rules from its moment on, and not before', async () => {
    const { patientId, drain } = await patient()
    await change(patientId, drain, 5, { logEveryHours: 8 })
    expect((await planAt(patientId, 4.9))?.logEveryHours).toBe(24)
    expect((await planAt(patientId, 5))?.logEveryHours).toBe(8)
  })

  it('taken back within its minute: the version before is in force, flags stand as before', async () => {
    const { patientId, drain } = await fever()
    const before = await flagsOf(patientId)
    expect(before).toMatchObject([{ code: 'infection-signs', state: 'open' }])
    const { version, undoUntil } = await change(patientId, drain, 2, { overrides: { feverC: 38.8 } })
    expect(undoUntil).toBe(iso(2 + 60 * SECOND))
    expect(await flagsOf(patientId)).toMatchObject([{ state: 'ended' }])
    await undo(patientId, drain, version, 2 + 59 * SECOND)
    expect(await flagsOf(patientId)).toEqual(before)
    expect((await planAt(patientId, 3))?.overrides).toBeUndefined()
    expect((await planAt(patientId, 2 + SECOND))?.overrides).toEqual({ feverC: 38.8 })
  })

  it('stays readable in the history with what it changed, and its number is not given again', async () => {
    const { patientId, drain } = await patient()
    const { version } = await change(patientId, drain, 2, {
      ...{ why: 'stiff flushes', flush: { volumeMl: 10, everyHours: 12 } },
      overrides: { feverC: 37.8 },
    })
    await undo(patientId, drain, version, 2 + SECOND)
    expect(await change(patientId, drain, 3, { dressingEveryHours: 24 })).toMatchObject({ version: 3 })
    const { orders, withdrawnOrders } = await readPatientPage(nurse, patientId, at(4))
    expect(orders[drain]).toMatchObject([
      { version: 3, by: nurse.name, changes: ['dressing every 24 h (was every 48 h)'] },
      { version: 1, changes: [] },
    ])
    expect(withdrawnOrders).toMatchObject([
      {
        ...{ drain, version: 2, why: 'stiff flushes', withdrawnAt: iso(2 + SECOND), withdrawnBy: nurse.name },
        changes: ['flush 10 mL every 12 h (was none)', 'Fever from, °C: 37.8 (was the clinic’s)'],
      },
    ])
  })

  it('not after the minute, not by another, not under newer orders, not the first', async () => {
    const { patientId, drain } = await patient()
    const { version } = await change(patientId, drain, 2, { logEveryHours: 12 })
    await expect(undo(patientId, drain, version, 2 + 60 * SECOND)).rejects.toMatchObject({ kind: 'conflict' })
    await expect(undo(patientId, drain, version, 2 + SECOND, otherNurse)).rejects.toThrow(
      /Only Nora Invented/,
    )
    await expect(undo(patientId, drain, version, 2 + SECOND, stranger)).rejects.toMatchObject({
      kind: 'not-found',
    })
    await expect(undo(patientId, drain, 7, 2 + SECOND)).rejects.toMatchObject({ kind: 'not-found' })
    const { version: newer } = await change(
      patientId,
      drain,
      2 + 2 * SECOND,
      { logEveryHours: 8 },
      otherNurse,
    )
    await expect(undo(patientId, drain, version, 2 + 3 * SECOND)).rejects.toThrow(/Newer orders/)
    await undo(patientId, drain, newer, 2 + 4 * SECOND, otherNurse)
    await undo(patientId, drain, version, 2 + 5 * SECOND)
    await expect(undo(patientId, drain, 1, 2 + 6 * SECOND)).rejects.toThrow(/first orders/)
  })

  it('twenty presses at once take it back once', async () => {
    const { patientId, drain } = await fever()
    const { version } = await change(patientId, drain, 2, { overrides: { feverC: 38.8 } })
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, i) => undo(patientId, drain, version, 2 + (i + 1) * SECOND)),
    )
    expect(new Set(answers.map(({ withdrawnAt }) => withdrawnAt)).size).toBe(1)
    expect(await read((tx) => tx.flagStep.count({ where: { patientId, kind: 'undone' } }))).toBe(1)
  })
})
