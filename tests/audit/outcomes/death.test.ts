import { beforeEach, describe, expect, it } from 'vitest'
import {
  answerInquiry,
  readOutcomePatient,
  recordOutsideEvent,
  withdrawOutsideEvent,
} from '../../../lib/audit/outcomes/index.ts'
import { importOutsideEvents } from '../../../lib/intake/import-outside-events.ts'
import { endFollowUp, resumeFollowUp } from '../../../lib/intake/index.ts'
import { listen } from '../../../lib/notify/bus.ts'
import { read } from '../../../lib/store/index.ts'
import { readPatientPage, readWorklist, sweep, takeRow } from '../../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, otherNurse, patient } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { key, refusal } from '../week/place.ts'

databasePerTest()
beforeEach(openClinics)

const death = { kind: 'death', at: iso(47) }
const record = (patientId: string, body: object, hours = 49) =>
  recordOutsideEvent(nurse, patientId, body, key(), at(hours))
const stateOf = (id: string) => read((tx) => tx.patientState.findUniqueOrThrow({ where: { patientId: id } }))
const followUp = async (patientId: string, hours: number) =>
  (await readPatientPage(nurse, patientId, at(hours))).followUp
const steps = () => read((tx) => tx.followUpStep.findMany({ orderBy: { recordedAt: 'asc' } }))

describe('a death that is told as an outside event', () => {
  it('ends follow-up as it is ended by hand: nothing is due, nobody has the row, and it is told', async () => {
    const { patientId } = await patient()
    await sweep(at(48))
    await takeRow(nurse, patientId, at(48))
    const heard: string[] = []
    const stop = listen(CLINIC, ({ kind }) => heard.push(kind))
    const saved = await record(patientId, death)
    stop()
    expect(saved).toMatchObject({ events: [expect.any(String)], endedFollowUp: true })
    expect(heard).toEqual(['follow-up'])
    expect((await readWorklist(nurse, at(50))).rows).toEqual([])
    expect(await read((tx) => tx.hold.count())).toBe(0)
    expect(await stateOf(patientId)).toMatchObject({ nextCheckAt: null, nextReminderAt: null })
    expect(await followUp(patientId, 50)).toMatchObject({
      ...{ endedAt: iso(49), endedBy: nurse.name, reason: 'died' },
      why: 'Told as an event outside the clinic.',
    })
    expect(
      await read((tx) => tx.accessRecord.findMany({ where: { action: 'end-follow-up' } })),
    ).toMatchObject([{ patientId, staffId: nurse.id }])
    expect((await readOutcomePatient(nurse, patientId, at(50))).inFollowUp).toBe(false)
  })

  it('ends it with the answer to what became of the patient, too; what is no death ends nothing', async () => {
    const { patientId } = await patient()
    expect(await record(patientId, { kind: 'admission', at: iso(40) })).not.toHaveProperty('endedFollowUp')
    expect((await readOutcomePatient(nurse, patientId, at(50))).inFollowUp).toBe(true)
    const body = { about: '30-days', answer: 'events', events: [death] }
    expect(await answerInquiry(nurse, patientId, body, key(), at(721))).toMatchObject({ endedFollowUp: true })
    expect((await followUp(patientId, 722)).reason).toBe('died')
  })

  it('leaves an end that stands as it is', async () => {
    const { patientId } = await patient()
    await endFollowUp(nurse, patientId, { reason: 'died' }, key(), at(48))
    expect(await record(patientId, death)).not.toHaveProperty('endedFollowUp')
    expect(await steps()).toHaveLength(1)
  })

  it('ends nothing where it is refused', async () => {
    const { patientId } = await patient()
    await refusal(record(patientId, { kind: 'death', at: iso(-1) }))
    expect((await followUp(patientId, 50)).endedAt).toBeNull()
  })

  it('brings nobody back when it is withdrawn; and two people can do so only afterwards', async () => {
    const { patientId } = await patient()
    const { events } = await record(patientId, death)
    const resume = (by: typeof nurse, hours: number) =>
      resumeFollowUp(by, patientId, { why: 'it was the neighbour' }, key(), at(hours))
    expect((await refusal(resume(nurse, 50))).detail).toMatch(/withdraw it first/)
    const why = { why: 'it was the neighbour' }
    await withdrawOutsideEvent(nurse, patientId, events[0] ?? '', why, key(), at(51))
    expect(await followUp(patientId, 52)).toMatchObject({ endedAt: iso(49), reason: 'died' })
    expect(await resume(nurse, 53)).toEqual({ state: 'asked' })
    expect((await refusal(resume(nurse, 54))).kind).toBe('conflict')
    expect(await resume(otherNurse, 55)).toEqual({ state: 'resumed' })
    expect((await followUp(patientId, 56)).endedAt).toBeNull()
  })
})

describe('a death in a file of outside events', () => {
  it('ends follow-up of those who were in it, and the look before it says of how many', async () => {
    const [ada, bea, gone] = [await patient(), await patient(), await patient()]
    await endFollowUp(nurse, gone.patientId, { reason: 'died' }, key(), at(48))
    const people = await read((tx) => tx.patient.findMany())
    const numberOf = (id: string) => people.find((one) => one.id === id)?.recordNumber
    const lines = [
      'record_number,kind,at',
      `${numberOf(ada.patientId)},death,${iso(47)}`,
      `${numberOf(bea.patientId)},admission,${iso(47)}`,
      `${numberOf(gone.patientId)},death,${iso(47)}`,
    ]
    const take = (dryRun: boolean) =>
      importOutsideEvents(
        nurse,
        { name: 'events.csv', bytes: new TextEncoder().encode(lines.join('\n')), dryRun },
        at(49),
      )
    expect(await take(true)).toMatchObject({ events: 3, ends: 1 })
    expect((await followUp(ada.patientId, 50)).endedAt).toBeNull()
    expect(await take(false)).toMatchObject({ events: 3, ends: 1 })
    expect(await followUp(ada.patientId, 50)).toMatchObject({ endedAt: iso(49), reason: 'died' })
    expect((await followUp(bea.patientId, 50)).endedAt).toBeNull()
    expect(await steps()).toHaveLength(2)
    expect(await take(false)).toMatchObject({ events: 0, ends: 0, takenAt: iso(49) })
  })
})
