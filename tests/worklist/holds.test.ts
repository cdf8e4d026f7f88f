import { beforeEach, describe, expect, it } from 'vitest'
import { initialsOf } from '../../lib/domain/initials.ts'
import { receiveReport } from '../../lib/intake/index.ts'
import { listen } from '../../lib/notify/bus.ts'
import { read } from '../../lib/store/index.ts'
import { overrideRow, readWorklist, releaseRow, renewRow, takeRow } from '../../lib/worklist/index.ts'
import {
  at,
  CLINIC,
  chargeNurse,
  iso,
  nurse,
  openClinics,
  otherNurse,
  patient,
  stranger,
} from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const accessed = () =>
  read(async (tx) =>
    (await tx.accessRecord.findMany({ where: { clinicId: CLINIC } })).map(({ action }) => action),
  )

describe('a taken row', () => {
  it('is theirs for 15 minutes, and shown to all', async () => {
    const { patientId, drain } = await patient()
    await leak(patientId, drain)
    expect(await takeRow(nurse, patientId, at(1))).toMatchObject({ staffId: nurse.id, until: iso(1.25) })
    const [row] = (await readWorklist(otherNurse, at(1.1))).rows
    expect(row?.hold).toEqual({
      staffId: nurse.id,
      name: nurse.name,
      initials: initialsOf(nurse.name),
      until: iso(1.25),
    })
  })

  it('is refused to a second nurse, with who has it', async () => {
    const { patientId } = await patient()
    await takeRow(nurse, patientId, at(1))
    await expect(takeRow(otherNurse, patientId, at(1.2))).rejects.toMatchObject({
      kind: 'taken',
      detail: expect.stringContaining(nurse.name),
    })
    expect(await takeRow(otherNurse, patientId, at(1.26))).toMatchObject({ staffId: otherNurse.id })
  })

  it('is theirs for 5 minutes where it is at-once', async () => {
    const { patientId, drain } = await patient()
    const body = { symptoms: { at: iso(1), drains: [{ drain, position: 'out' }] } }
    await receiveReport(
      { clinicId: CLINIC, patientId, door: 'check-in', source: 's', by: null, key: 'k', body },
      at(1),
    )
    expect((await takeRow(nurse, patientId, at(1))).until).toBe(iso(1 + 1 / 12))
  })

  it('can be kept, by whoever has it and while they have it', async () => {
    const { patientId } = await patient()
    await takeRow(nurse, patientId, at(1))
    expect((await renewRow(nurse, patientId, at(1.2))).until).toBe(iso(1.45))
    await expect(renewRow(otherNurse, patientId, at(1.3))).rejects.toMatchObject({ kind: 'taken' })
    await expect(renewRow(nurse, patientId, at(2))).rejects.toMatchObject({ kind: 'conflict' })
  })

  it('can be given back, by whoever has it', async () => {
    const { patientId } = await patient()
    await takeRow(nurse, patientId, at(1))
    await releaseRow(otherNurse, patientId, at(1.05))
    await expect(takeRow(otherNurse, patientId, at(1.05))).rejects.toMatchObject({ kind: 'taken' })
    await releaseRow(nurse, patientId, at(1.1))
    expect(await takeRow(otherNurse, patientId, at(1.1))).toMatchObject({ staffId: otherNurse.id })
  })

  it('can be taken over by the charge nurse, with a reason', async () => {
    const { patientId } = await patient()
    await takeRow(nurse, patientId, at(1))
    await expect(overrideRow(otherNurse, patientId, 'lunch', at(1))).rejects.toMatchObject({
      kind: 'not-allowed',
    })
    await expect(overrideRow(chargeNurse, patientId, '  ', at(1))).rejects.toMatchObject({
      kind: 'invalid-input',
    })
    expect(await overrideRow(chargeNurse, patientId, 'called away', at(1))).toMatchObject({
      staffId: chargeNurse.id,
    })
    expect(await accessed()).toEqual(expect.arrayContaining(['take-row', 'override-take']))
  })

  it('has one winner among 200 who take it at once', async () => {
    const { patientId } = await patient()
    const heard: unknown[] = []
    const stop = listen(CLINIC, (change) => heard.push(change))
    const nurses = Array.from({ length: 200 }, (_, i) => ({ ...nurse, id: `nurse-${i}`, name: `Nurse ${i}` }))
    const tries = await Promise.allSettled(nurses.map((one) => takeRow(one, patientId, at(1))))
    stop()
    const won = tries.flatMap((tried) => (tried.status === 'fulfilled' ? [tried.value] : []))
    const lost = tries.flatMap((tried) =>
      tried.status === 'rejected' ? [tried.reason as { kind: string; detail: string }] : [],
    )
    expect(won).toHaveLength(1)
    expect(lost.every(({ kind, detail }) => kind === 'taken' && detail.includes(won[0]?.name ?? '?'))).toBe(
      true,
    )
    expect(heard).toEqual([{ patientId, kind: 'hold' }])
    expect((await accessed()).filter((action) => action === 'take-row')).toHaveLength(1)
  })

  it('of another clinic’s patient is nobody’s', async () => {
    const { patientId } = await patient()
    await expect(takeRow(stranger, patientId, at(1))).rejects.toMatchObject({ kind: 'not-found' })
  })
})

const leak = (patientId: string, drain: string) =>
  receiveReport(
    {
      clinicId: CLINIC,
      patientId,
      door: 'check-in',
      source: 's',
      by: null,
      key: `leak-${patientId}`,
      body: { symptoms: { at: iso(1), drains: [{ drain, leak: true }] } },
    },
    at(1),
  )
