import { beforeEach, describe, expect, it } from 'vitest'
import { changeOrders, enrol, receiveReport } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { at, CLINIC, enrolment, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const tokenOf = (link: string) => link.split('#')[1] ?? ''

describe('enrolment', () => {
  it('takes person, drains, orders and link in one go', async () => {
    const { patientId, link } = await enrol(
      nurse,
      enrolment(
        { phone: '+1 555 0101' },
        {
          plan: {
            logEveryHours: 12,
            dressingEveryHours: 72,
            flush: { volumeMl: 10, everyHours: 24 },
            overrides: { feverC: 38.3 },
          },
        },
      ),
      'k',
      at(0),
    )
    expect(link).toMatch(new RegExp(`^/check-in/${CLINIC}#[\\w-]{43}$`))
    const composed = await read((tx) => composeRecord(tx, patientId, at(1)))
    expect(composed?.record.drains).toMatchObject([
      {
        kind: 'nephrostomy',
        plan: { logEveryHours: 12, flush: { volumeMl: 10 }, overrides: { feverC: 38.3 } },
      },
    ])
    const plan = await read((tx) => tx.carePlan.findFirstOrThrow())
    expect(JSON.parse(plan.overrides ?? '')).toEqual({
      feverC: { value: 38.3, by: nurse.id, at: iso(0), why: 'as ordered at enrolment' },
    })
  })

  it('repeated under its key gives the same answer and one patient, and keeps no token', async () => {
    const body = enrolment()
    const [first, second] = await Promise.all([
      enrol(nurse, body, 'k', at(0)),
      enrol(nurse, body, 'k', at(0)),
    ])
    expect(second).toEqual(first)
    const stored = await read(async (tx) =>
      JSON.stringify([
        await tx.answered.findMany(),
        await tx.patientLink.findMany(),
        await tx.accessRecord.findMany(),
      ]),
    )
    expect(await read((tx) => tx.patient.count())).toBe(1)
    expect(stored).not.toContain(tokenOf(first.link))
  })

  it.each([
    ['a child', { birthDate: '2015-01-01' }, 'birthDate'],
    ['no drain', { drains: [] }, 'drains'],
    ['an offset for a zone', { timeZone: '+05:00' }, 'timeZone'],
    ['a field of another form', { weight: 80 }, 'weight'],
  ])('refuses %s', async (_name, change, field) => {
    await expect(enrol(nurse, enrolment(change), 'k', at(0))).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
    expect(await read((tx) => tx.patient.count())).toBe(0)
  })

  it('refuses a threshold out of its range, and a record number that is taken', async () => {
    const plan = { logEveryHours: 24, dressingEveryHours: 48, overrides: { feverC: 50 } }
    await expect(enrol(nurse, enrolment({}, { plan }), 'k', at(0))).rejects.toMatchObject({
      faults: [{ field: 'drains[0].plan.overrides.feverC' }],
    })
    const body = enrolment()
    await enrol(nurse, body, 'k1', at(0))
    await expect(enrol(nurse, body, 'k2', at(0))).rejects.toMatchObject({
      kind: 'conflict',
      faults: [{ field: 'recordNumber' }],
    })
    await enrol(stranger, body, 'k1', at(0))
  })
})

describe('a change of orders', () => {
  const drainAt = (patientId: string, hours: number) =>
    read(async (tx) => (await composeRecord(tx, patientId, at(hours)))?.record.drains[0])

  it('adds a version and keeps the old one: each instant has the orders in force then', async () => {
    const { patientId, drain } = await patient()
    const answer = await changeOrders(
      nurse,
      patientId,
      drain,
      { why: 'drains less', logEveryHours: 12, flush: { volumeMl: 5, everyHours: 12 } },
      'o1',
      at(10),
    )
    expect(answer).toMatchObject({ version: 2 })
    expect((await drainAt(patientId, 9))?.plan).toMatchObject({ logEveryHours: 24, flush: null })
    expect((await drainAt(patientId, 10))?.plan).toMatchObject({
      logEveryHours: 12,
      dressingEveryHours: 48,
      flush: { volumeMl: 5, everyHours: 12 },
    })
    expect(await read((tx) => tx.carePlan.count())).toBe(2)
  })

  it('keeps who, when and why beside each of the drain’s own thresholds; null takes one back', async () => {
    const { patientId, drain } = await patient()
    await changeOrders(
      nurse,
      patientId,
      drain,
      { why: 'small bladder', overrides: { declineRatio: 0.4, feverC: 38.5 } },
      'o1',
      at(1),
    )
    await changeOrders(
      nurse,
      patientId,
      drain,
      { why: 'as before', overrides: { feverC: null } },
      'o2',
      at(2),
    )
    const plan = await read((tx) => tx.carePlan.findFirstOrThrow({ orderBy: { version: 'desc' } }))
    expect(JSON.parse(plan.overrides ?? '')).toEqual({
      declineRatio: { value: 0.4, by: nurse.id, at: iso(1), why: 'small bladder' },
    })
  })

  it.each([
    ['without a reason', { logEveryHours: 12 }, 'why'],
    ['of a threshold out of its range', { why: 'x', overrides: { severePain: 2 } }, 'overrides.severePain'],
    ['of a threshold that is not a drain’s own', { why: 'x', overrides: { leakMl: 2 } }, 'overrides.leakMl'],
  ])('%s is refused', async (_name, body, field) => {
    const { patientId, drain } = await patient()
    await expect(changeOrders(nurse, patientId, drain, body, 'o', at(1))).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
    expect(await read((tx) => tx.carePlan.count())).toBe(1)
  })

  it('assesses the patient anew', async () => {
    const { patientId, drain } = await patient()
    await receiveReport(
      {
        clinicId: CLINIC,
        patientId,
        door: 'check-in',
        source: 's',
        by: null,
        key: 'k',
        body: { symptoms: { at: iso(1), temperatureC: 38.2 } },
      },
      at(1),
    )
    expect(await read((tx) => tx.flag.count({ where: { code: 'infection-signs', state: 'open' } }))).toBe(1)
    await changeOrders(
      nurse,
      patientId,
      drain,
      { why: 'usual for them', overrides: { feverC: 38.5 } },
      'o',
      at(2),
    )
    expect(await read((tx) => tx.flag.count({ where: { code: 'infection-signs', state: 'owed' } }))).toBe(1)
  })
})
