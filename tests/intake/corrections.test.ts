import { beforeEach, describe, expect, it } from 'vitest'
import { issueLink, receiveReport } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { at, CLINIC, nurse, openClinics, patient, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { phoneWith } from './sent-by-link.ts'

databasePerTest()
beforeEach(openClinics)

const supersededBy = (id: string) =>
  read(async (tx) => (await tx.report.findUniqueOrThrow({ where: { id } })).supersedesId)

describe('a correction', () => {
  it('names the report by the key under which it was sent, before its receipt was known', async () => {
    const { link, drain } = await patient()
    const { send } = await phoneWith(link, 1)
    const first = await send('k1', wellReport(drain, 1, 40), 2)
    const second = await send('k2', { ...wellReport(drain, 1, 400), supersedesKey: 'k1' }, 2)
    expect(await supersededBy(second.report)).toBe(first.report)
    expect(await send('k2', { ...wellReport(drain, 1, 400), supersedesKey: 'k1' }, 3)).toEqual(second)
  })

  it('of a report that was corrected already takes the place of the newest', async () => {
    const { link, drain } = await patient()
    const { send } = await phoneWith(link, 1)
    const first = await send('k1', wellReport(drain, 1, 40), 2)
    const second = await send('k2', { ...wellReport(drain, 1, 400), supersedesKey: 'k1' }, 3)
    const third = await send('k3', { ...wellReport(drain, 1, 410), supersedesKey: 'k1' }, 4)
    const fourth = await send('k4', { ...wellReport(drain, 1, 420), supersedes: first.report }, 5)
    expect(await supersededBy(third.report)).toBe(second.report)
    expect(await supersededBy(fourth.report)).toBe(third.report)
  })

  it('of what was never sent is refused, and says so', async () => {
    const { link, drain } = await patient()
    const other = await patient()
    await (await phoneWith(other.link, 1)).send('theirs', wellReport(other.drain, 1), 1)
    const { send } = await phoneWith(link, 1)
    for (const supersedesKey of ['never', 'theirs'])
      await expect(send('k', { ...wellReport(drain, 1), supersedesKey }, 1)).rejects.toMatchObject({
        kind: 'invalid-input',
        faults: [{ field: 'supersedesKey', message: expect.stringContaining('send that one first') }],
      })
    const one = await send('k1', wellReport(drain, 1), 1)
    await send('k2', wellReport(drain, 2), 2)
    await expect(
      send('k3', { ...wellReport(drain, 2), supersedes: one.report, supersedesKey: 'k2' }, 3),
    ).rejects.toMatchObject({ faults: [{ field: 'supersedesKey' }] })
  })

  it('by a link is of the last 48 hours, and not of what staff entered', async () => {
    const { patientId, link, drain } = await patient()
    const { send } = await phoneWith(link, 1)
    await send('k1', wellReport(drain, 1), 1)
    const staff = { clinicId: CLINIC, patientId, door: 'phone-in', source: nurse.id, by: nurse.id } as const
    const entered = await receiveReport({ ...staff, key: 'n1', body: wellReport(drain, 2) }, at(2))
    const fault = { faults: [{ message: expect.stringContaining('48 hours') }] }
    await expect(send('k2', { ...wellReport(drain, 1), supersedesKey: 'k1' }, 49.1)).rejects.toMatchObject(
      fault,
    )
    await expect(
      send('k3', { ...wellReport(drain, 2), supersedes: entered.report }, 3),
    ).rejects.toMatchObject(fault)
    const late = { ...wellReport(drain, 2, 300), supersedes: entered.report }
    await receiveReport({ ...staff, key: 'n2', body: late }, at(200))
  })

  it('by a link that may not see is of what it sent itself', async () => {
    const { patientId, link, drain } = await patient()
    const wanted = { holder: 'helper', holderName: 'Rosa Invented', maySee: false } as const
    const blind = await phoneWith((await issueLink(nurse, patientId, at(0), wanted)).link, 1)
    const own = await (await phoneWith(link, 1)).send('k1', wellReport(drain, 1), 1)
    await expect(
      blind.send('k2', { ...wellReport(drain, 1), supersedes: own.report }, 2),
    ).rejects.toMatchObject({ faults: [{ field: 'supersedes' }] })
    await blind.send('k3', wellReport(drain, 3), 3)
    await blind.send('k4', { ...wellReport(drain, 3, 300), supersedesKey: 'k3' }, 4)
  })
})
