import { beforeEach, describe, expect, it, vi } from 'vitest'
import { standardAfterHours } from '../../lib/domain/after-hours.ts'
import { read, write } from '../../lib/store/index.ts'
import { checkHours, stepDue } from '../../lib/worklist/escalate.ts'
import { onCall, readPatientPage, readWorklist, recordCallback, takeRow } from '../../lib/worklist/index.ts'
import { at, iso, nurse, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import {
  CLOSES,
  drainOut,
  escalations,
  leak,
  MORNING,
  NIGHT,
  OPENS,
  onCallPerson,
  SECRET,
  send,
  setHours,
  tokenOf,
} from './night.ts'

databasePerTest()
beforeEach(openClinics)
beforeEach(() => setHours())
beforeEach(() => {
  vi.stubEnv('AUTH_SECRET', SECRET)
  vi.stubEnv('SMTP_URL', 'smtp://mail.example')
})

const minutes = (n: number) => NIGHT + n / 60
/** What the timer does in a round, as of so many minutes of the night. */
const round = async (hour: number, lastResort: string | null = null) => {
  const checked = await checkHours(at(hour))
  const stepped = await stepDue(at(hour), lastResort)
  expect([...checked.errors, ...stepped.errors]).toEqual([])
}
const only = async () => {
  const [one, ...others] = await escalations()
  expect(others).toEqual([])
  if (!one) throw new Error('there is no escalation')
  return one
}
const letters = () => read((tx) => tx.outbox.findMany({ where: { kind: { startsWith: 'on-call' } } }))
const rowOf = async (patientId: string, hour: number) =>
  (await readWorklist(nurse, at(hour))).rows.find((row) => row.patientId === patientId)

describe('what cannot wait and comes at night', () => {
  it('is told to whoever is first by rank, repeated, passed on, and begun again', async () => {
    await onCallPerson('Bea', 2)
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(minutes(0))
    expect((await only()).lines).toEqual(['opened', 'told Abe'])
    await round(minutes(4))
    await round(minutes(5))
    await round(minutes(10))
    expect((await only()).lines).toEqual(['opened', 'told Abe', 'told Abe', 'passed-on Bea', 'told Bea'])
    await round(minutes(15))
    await round(minutes(20))
    expect((await only()).lines.slice(5)).toEqual(['told Bea', 'passed-on Abe', 'told Abe'])
    expect(await rowOf(patientId, minutes(20))).toMatchObject({
      onCall: { state: 'told', name: 'Abe (invented)', tries: 5 },
    })
  })

  it('is no letter to anybody else, and no letter names the patient', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(minutes(0))
    const all = await read((tx) => tx.outbox.findMany())
    expect(all.map(({ kind }) => kind)).toEqual(['on-call'])
    const { name } = await read((tx) => tx.patient.findUniqueOrThrow({ where: { id: patientId } }))
    expect(all[0]?.body).not.toContain(name)
  })

  it('waits where it can wait: nothing of within 24 hours is told at night', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await send(patientId, NIGHT, { flushes: [{ drain, at: iso(NIGHT), volumeMl: 10, ease: 'blocked' }] })
    await round(minutes(0))
    expect(await escalations()).toEqual([])
    expect(await rowOf(patientId, minutes(0))).toMatchObject({ urgency: 'within-24h', onCall: null })
  })

  it('is raised by what is more urgent, and whoever has it is asked anew', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await leak(patientId, drain, NIGHT)
    await round(minutes(0))
    const { id, token } = await tokenOf('Abe')
    await onCall(id, { token, wish: 'have-it' }, at(minutes(3)))
    await drainOut(patientId, drain, minutes(6))
    await round(minutes(6))
    const now = await only()
    expect(now).toMatchObject({ urgency: 'at-once', haveItAt: null })
    expect(now.lines.slice(-2)).toEqual(['raised', 'told Abe'])
  })

  it('is news to whoever has it, once, where it is no more urgent', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(minutes(0))
    const { id, token } = await tokenOf('Abe')
    await onCall(id, { token, wish: 'have-it' }, at(minutes(1)))
    await leak(patientId, drain, minutes(6))
    await round(minutes(6))
    await round(minutes(30))
    const now = await only()
    expect(now.lines.slice(-2)).toEqual(['news', 'told Abe'])
    expect(now.haveItBy).toBe('Abe (invented)')
    expect(now.nextAt).toBeNull()
  })
})

describe('an escalation ends', () => {
  const begun = async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(minutes(0))
    return patientId
  }

  it('when the clinic opens, and says so', async () => {
    const patientId = await begun()
    await round(MORNING)
    const { endedAt, steps } = await only()
    expect(endedAt).toBe(iso(MORNING))
    expect(steps.at(-1)).toMatchObject({ kind: 'ended', why: expect.stringContaining('The clinic is open') })
    expect(await rowOf(patientId, MORNING)).toMatchObject({ onCall: null, urgency: 'at-once' })
  })

  it('when somebody has spoken to the patient; an attempt alone ends nothing', async () => {
    const patientId = await begun()
    await recordCallback(nurse, patientId, { outcome: 'no-answer' }, 'c1', at(minutes(2)))
    expect((await only()).endedAt).toBeNull()
    const reached = { outcome: 'reached', spokenTo: 'patient', agreed: ['emergency-department'] }
    await recordCallback(nurse, patientId, reached, 'c2', at(minutes(3)))
    expect((await only()).steps.at(-1)?.why).toBe('Somebody has spoken to the patient.')
    await round(minutes(30))
    expect((await only()).endedAt).toBe(at(minutes(3)).toISOString())
  })

  it('and stands on the patient’s page, a line a step', async () => {
    const patientId = await begun()
    await round(MORNING)
    const { escalations: shown } = await readPatientPage(nurse, patientId, at(MORNING))
    expect(shown.map(({ steps }) => steps.map(({ kind }) => kind))).toEqual([['opened', 'told', 'ended']])
  })
})

describe('when the clinic closes', () => {
  it('what stands and nobody has taken is told', async () => {
    await onCallPerson('Abe', 1)
    const one = await patient()
    const taken = await patient()
    await drainOut(one.patientId, one.drain, CLOSES - 0.2)
    await drainOut(taken.patientId, taken.drain, CLOSES - 0.2)
    await takeRow(nurse, taken.patientId, at(CLOSES - 0.01))
    await round(CLOSES - 0.01)
    expect(await escalations()).toEqual([])
    await round(CLOSES)
    expect((await only()).patientId).toBe(one.patientId)
    await round(CLOSES + 0.3)
    expect((await escalations()).map(({ patientId }) => patientId)).toEqual([one.patientId, taken.patientId])
  })

  it('a row that is kept taken all evening is told an hour after closing', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, CLOSES - 0.2)
    for (const hour of [CLOSES, CLOSES + 0.5, CLOSES + 0.95]) {
      await takeRow(nurse, patientId, at(hour))
      await round(hour)
    }
    expect(await escalations()).toEqual([])
    await round(CLOSES + 1)
    expect((await only()).patientId).toBe(patientId)
  })

  it('what was spoken about is not', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, OPENS + 1)
    const reached = { outcome: 'reached', spokenTo: 'patient', agreed: ['emergency-department'] }
    await recordCallback(nurse, patientId, reached, 'c', at(OPENS + 2))
    await round(CLOSES)
    expect(await escalations()).toEqual([])
  })
})

describe('with nobody to tell', () => {
  it('it stands, says so, and the address of last resort is told each time', async () => {
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(minutes(0), 'last@larkfield.example')
    await round(minutes(5), 'last@larkfield.example')
    const { lines, nextAt } = await only()
    expect(lines).toEqual([
      'opened',
      'nobody',
      'told the address of last resort',
      'told the address of last resort',
    ])
    expect(nextAt).toBe(at(minutes(10)).toISOString())
    const list = await readWorklist(nurse, at(minutes(6)))
    expect(list.system.join(' ')).toMatch(/Nobody is on call now, until/)
  })

  it('says so on the row where there is no address either, until a shift begins', async () => {
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(minutes(0))
    await round(minutes(5))
    expect((await only()).lines).toEqual(['opened', 'nobody'])
    expect(await rowOf(patientId, minutes(5))).toMatchObject({ onCall: { state: 'nobody', tries: 0 } })
    await onCallPerson('Abe', 1)
    await round(minutes(10))
    expect((await only()).lines).toEqual(['opened', 'nobody', 'told Abe'])
  })

  it('passes by whoever cannot be reached by any way', async () => {
    await onCallPerson('Abe', 1, { email: null, phone: '+1 555 0102' })
    await onCallPerson('Bea', 2)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(minutes(0))
    await round(minutes(10))
    expect((await only()).lines).toEqual(['opened', 'no-way Abe', 'passed-on Bea', 'told Bea'])
  })
})

it('a clinic that has not said when it is open has nobody called, and says so', async () => {
  await setHours(null, null)
  const { patientId, drain } = await patient()
  await drainOut(patientId, drain, NIGHT)
  await round(minutes(0))
  expect(await escalations()).toEqual([])
  expect((await readWorklist(nurse, at(NIGHT))).system.join(' ')).toMatch(/Opening hours are not set/)
})

it('a clinic whose table tells nobody says so', async () => {
  const { closed } = standardAfterHours
  const silent = { ...closed['within-1h'], tell: 'nobody' as const }
  await setHours({ ...standardAfterHours, closed: { ...closed, 'within-1h': silent } })
  const { patientId, drain } = await patient()
  await leak(patientId, drain, NIGHT)
  await round(minutes(0))
  expect(await escalations()).toEqual([])
  expect((await readWorklist(nurse, at(NIGHT))).system.join(' ')).toMatch(
    /nobody is told after hours of what is ‘Within 1 hour’/,
  )
})

it('one whose step fails holds up no other, and is tried again', async () => {
  await onCallPerson('Abe', 1)
  const bad = await patient()
  const good = await patient()
  await drainOut(bad.patientId, bad.drain, NIGHT)
  await drainOut(good.patientId, good.drain, NIGHT)
  await write((tx) =>
    tx.escalation.updateMany({ where: { patientId: bad.patientId }, data: { clinicId: 'gone' } }),
  )
  const { errors } = await stepDue(at(NIGHT), null)
  expect(errors).toHaveLength(1)
  expect(await letters()).toHaveLength(1)
  expect((await stepDue(at(minutes(1)), null)).errors).toHaveLength(1)
})
