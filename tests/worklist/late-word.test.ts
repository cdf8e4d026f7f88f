import { beforeEach, describe, expect, it } from 'vitest'
import type { StaffMember } from '../../lib/domain/staff.ts'
import { endFollowUp, receiveReport, resumeFollowUp } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { readWorklist, recordCallback, recordStaffEvent, sweep } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

const physician: StaffMember = { ...nurse, id: 'physician', role: 'physician' }

databasePerTest()
beforeEach(openClinics)

let count = 0
const send = (patientId: string, hours: number, body: unknown) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: `k${++count}`, body },
    at(hours),
  )
const feverish = (drain: string, hours: number) => ({
  ...wellReport(drain, hours),
  symptoms: { ...wellReport(drain, hours).symptoms, temperatureC: 39.1 },
})
const takeOut = (patientId: string, drain: string, hours: number) =>
  recordStaffEvent(nurse, patientId, { at: iso(hours), drain, type: 'removed' }, `e${++count}`, at(hours))
const end = (patientId: string, hours: number, reason = 'declined') =>
  endFollowUp(
    physician,
    patientId,
    { reason, why: 'they were told what may happen' },
    `f${++count}`,
    at(hours),
  )
const rows = async (hours: number) => (await readWorklist(nurse, at(hours))).rows
const call = (patientId: string, hours: number, body: object = {}) =>
  recordCallback(
    nurse,
    patientId,
    { outcome: 'reached', spokenTo: 'patient', agreed: ['self-care'], closes: [], ...body },
    `c${++count}`,
    at(hours),
  )

describe('a report after follow-up has ended', () => {
  it('is stored, and puts the patient on the worklist with the reason', async () => {
    const { patientId, drain } = await patient()
    await end(patientId, 1)
    await send(patientId, 100, wellReport(drain, 100))
    expect(await read((tx) => tx.report.count())).toBe(1)
    expect(await rows(100)).toMatchObject([
      {
        patientId,
        followUpEnd: 'declined',
        lookAgainWhy: 'a report came after follow-up ended',
        part: 'clinical',
        urgency: 'within-24h',
        since: iso(100),
        actBy: iso(124),
        flags: [],
      },
    ])
  })

  it('carries the urgency of what it says', async () => {
    const { patientId, drain } = await patient()
    await end(patientId, 1)
    await send(patientId, 100, feverish(drain, 100))
    expect(await rows(100)).toMatchObject([
      { urgency: 'within-1h', lookAgainWhy: 'a report came after follow-up ended' },
    ])
    expect((await rows(100))[0]?.flags.map(({ code }) => code)).toContain('infection-signs')
    expect(await read((tx) => tx.outbox.count({ where: { kind: 'pressing-flags' } }))).toBe(1)
  })

  it('brings back no flag of before the end that it does not touch', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, { dressings: [{ drain, at: iso(1), skin: 'broken' }] })
    expect((await rows(1))[0]?.flags.map(({ code }) => code)).toEqual(['skin-broken'])
    await end(patientId, 2)
    await send(patientId, 3, { symptoms: { at: iso(3), temperatureC: 36.7 } })
    expect(await rows(3)).toMatchObject([{ urgency: 'within-24h', flags: [] }])
  })

  it('leaves with the call that is recorded, and the sweep does not bring it back', async () => {
    const { patientId, drain } = await patient()
    await end(patientId, 1)
    await send(patientId, 100, feverish(drain, 100))
    const closes = (await rows(100))[0]?.flags.map(({ id }) => id) ?? []
    await call(patientId, 101, { closes, lookAgainAt: iso(110) })
    expect(await rows(101)).toEqual([])
    expect((await sweep(at(109))).assessed).toBe(0)
    expect(await rows(110)).toMatchObject([
      { lookAgainWhy: 'to look again, as agreed after follow-up ended' },
    ])
    await call(patientId, 111)
    expect(await rows(500)).toEqual([])
  })

  it('stays while nobody was reached, and a second one does not move it back', async () => {
    const { patientId, drain } = await patient()
    await end(patientId, 1)
    await send(patientId, 100, wellReport(drain, 100))
    await call(patientId, 101, { outcome: 'no-answer', spokenTo: undefined, agreed: undefined })
    await send(patientId, 110, wellReport(drain, 110))
    expect(await rows(110)).toMatchObject([{ since: iso(100), attempts: 1 }])
  })

  it('is not counted among those in follow-up', async () => {
    const { patientId, drain } = await patient()
    await patient()
    await end(patientId, 1)
    await send(patientId, 2, wellReport(drain, 2, 40))
    expect(await readWorklist(nurse, at(2))).toMatchObject({ patients: 1, nothingFlagged: 1 })
  })

  it('goes on as any other once follow-up does', async () => {
    const { patientId, drain } = await patient()
    await end(patientId, 1)
    await send(patientId, 2, feverish(drain, 2))
    await resumeFollowUp(nurse, patientId, { why: 'they changed their mind' }, 'u', at(3))
    expect(await rows(3)).toMatchObject([{ followUpEnd: null, urgency: 'within-1h' }])
  })
})

describe('a report on a drain that was removed', () => {
  it('reaches the worklist', async () => {
    const { patientId, drain } = await patient()
    await takeOut(patientId, drain, 1)
    await send(patientId, 2, { symptoms: { at: iso(2), drains: [{ drain, leak: true }] } })
    expect(await rows(2)).toMatchObject([
      { lookAgainWhy: 'a report on a drain that was removed', followUpEnd: null, urgency: 'within-24h' },
    ])
    await call(patientId, 3)
    expect(await rows(3)).toEqual([])
  })
  it('says nothing of a drain that is in place', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 2, wellReport(drain, 2, 40))
    expect(await rows(2)).toEqual([])
  })
  it('says nothing of the time before, sent later from a phone without a network', async () => {
    const { patientId, drain } = await patient()
    await takeOut(patientId, drain, 3)
    await send(patientId, 4, wellReport(drain, 2, 40))
    expect(await rows(4)).toEqual([])
  })
  it('says nothing once a new tube is in', async () => {
    const { patientId, drain } = await patient()
    await takeOut(patientId, drain, 1)
    await recordStaffEvent(nurse, patientId, { at: iso(2), drain, type: 'placed' }, 'again', at(2))
    await send(patientId, 3, wellReport(drain, 3, 20))
    expect((await rows(3)).filter(({ lookAgainWhy }) => lookAgainWhy !== null)).toEqual([])
  })
})

it('a promise of before the end waits until follow-up goes on', async () => {
  const { patientId } = await patient()
  await call(patientId, 1, { lookAgainAt: iso(10) })
  await end(patientId, 2)
  expect(await rows(11)).toEqual([])
  await resumeFollowUp(nurse, patientId, { why: 'ended by mistake' }, 'u', at(12))
  expect(await rows(12)).toMatchObject([{ patientId, lookAgainWhy: null }])
})
