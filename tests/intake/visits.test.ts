import { beforeEach, describe, expect, it } from 'vitest'
import type { NewVisitStep } from '../../lib/domain/visit.ts'
import { bookVisitWithin, stepVisit } from '../../lib/intake/index.ts'
import { read, snapshot, write } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { readPatientPage, readWorklist, recordStaffEvent, sweep } from '../../lib/worklist/index.ts'
import { at, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const DAY = 24
let count = 0
const step = (patientId: string, hours: number, body: object, key = `v${++count}`) =>
  stepVisit(nurse, patientId, body, key, at(hours))
/** What the record says at an instant is booked for the only drain. */
const booked = async (patientId: string, hours: number) => {
  const composed = await snapshot((tx) => composeRecord(tx, patientId, at(hours)))
  const { exchangeBookedFor, removalBookedFor } = composed?.record.drains[0] ?? {}
  return { exchangeBookedFor, removalBookedFor }
}
/** A nephrostomy of 30 days whose exchange is due in 5. */
const dueSoon = () =>
  patient(0, { plan: { logEveryHours: 24, dressingEveryHours: 480, exchangeEveryDays: 35 } })
const exchangeFlags = async (hours: number) => {
  const { rows } = await readWorklist(nurse, at(hours))
  return rows.flatMap(({ flags }) => flags).filter(({ code }) => code === 'exchange-due')
}

describe('a visit', () => {
  it('that is booked silences the reminder of it; called off, it reopens it', async () => {
    const { patientId, drain } = await dueSoon()
    expect(await exchangeFlags(0)).toMatchObject([{ urgency: 'within-3d' }])
    const visit = await step(patientId, 1, { drain, kind: 'exchange', state: 'booked', at: iso(4 * DAY) })
    expect(visit).toMatchObject({ drain, kind: 'exchange', state: 'booked', bookedFor: iso(4 * DAY) })
    expect(await exchangeFlags(1)).toEqual([])
    await step(patientId, 2, { visit: visit.id, drain, kind: 'exchange', state: 'cancelled', why: 'no bed' })
    expect(await exchangeFlags(2)).toMatchObject([{ urgency: 'within-3d' }])
  })

  it('that has passed without a new tube reopens it by the sweep alone', async () => {
    const { patientId, drain } = await dueSoon()
    await step(patientId, 1, { drain, kind: 'exchange', state: 'booked', at: iso(2 * DAY) })
    await sweep(at(2 * DAY - 1))
    expect(await exchangeFlags(2 * DAY - 1)).toEqual([])
    await sweep(at(2 * DAY))
    expect(await exchangeFlags(2 * DAY)).toMatchObject([{ urgency: 'within-24h' }])
  })

  it('is requested, booked, re-booked and done, and each step stays with who, when and why', async () => {
    const { patientId, drain } = await dueSoon()
    const { id: visit } = await step(patientId, 1, { drain, kind: 'exchange', state: 'requested' })
    expect(await exchangeFlags(1)).toHaveLength(1)
    await step(patientId, 2, { visit, drain, kind: 'exchange', state: 'booked', at: iso(30) })
    await step(patientId, 3, {
      visit,
      drain,
      kind: 'exchange',
      state: 'booked',
      at: iso(50),
      why: 'they asked',
    })
    await step(patientId, 51, { visit, drain, kind: 'exchange', state: 'done', at: iso(50.5) })
    const steps = await read((tx) => tx.visitStep.findMany({ orderBy: { recordedAt: 'asc' } }))
    expect(steps).toMatchObject([
      { state: 'requested', bookedFor: null, recordedAt: iso(1), recordedBy: nurse.id },
      { state: 'booked', bookedFor: iso(30), recordedAt: iso(2) },
      { state: 'booked', bookedFor: iso(50), recordedAt: iso(3), why: 'they asked' },
      { state: 'done', bookedFor: iso(50), recordedAt: iso(51) },
    ])
    const { visits } = await readPatientPage(nurse, patientId, at(52))
    expect(visits).toMatchObject([{ id: visit, state: 'done', changedBy: nurse.name, changedAt: iso(51) }])
  })

  it('is read as it stood at an instant', async () => {
    const { patientId, drain } = await dueSoon()
    const { id: visit } = await step(patientId, 1, { drain, kind: 'removal', state: 'booked', at: iso(30) })
    await step(patientId, 2, { visit, drain, kind: 'removal', state: 'booked', at: iso(50) })
    await step(patientId, 3, { visit, drain, kind: 'removal', state: 'cancelled' })
    const of = async (hours: number) => (await booked(patientId, hours)).removalBookedFor
    expect([await of(0.9), await of(1), await of(2.5), await of(3)]).toEqual([null, iso(30), iso(50), null])
    expect((await booked(patientId, 2)).exchangeBookedFor).toBeNull()
  })

  it.each([
    ['exchange', 'exchanged'],
    ['removal', 'removed'],
  ] as const)('%s that is done records that the drain was %s, at its time', async (kind, type) => {
    const { patientId, drain } = await dueSoon()
    const { id: visit } = await step(patientId, 1, { drain, kind, state: 'booked', at: iso(30) })
    await step(patientId, 31, { visit, drain, kind, state: 'done', at: iso(30.25), why: 'as planned' })
    expect(await read((tx) => tx.staffEvent.findMany())).toMatchObject([
      { type, drainId: drain, at: iso(30.25), recordedAt: iso(31), recordedBy: nurse.id, note: 'as planned' },
    ])
    expect(await exchangeFlags(31)).toEqual([])
    expect(await booked(patientId, 31)).toEqual({ exchangeBookedFor: null, removalBookedFor: null })
  })

  it('done at a time that has not come stores nothing', async () => {
    const { patientId, drain } = await dueSoon()
    const { id: visit } = await step(patientId, 1, { drain, kind: 'exchange', state: 'booked', at: iso(30) })
    await expect(
      step(patientId, 2, { visit, drain, kind: 'exchange', state: 'done', at: iso(30) }),
    ).rejects.toMatchObject({ kind: 'invalid-input', faults: [{ field: 'at' }] })
    expect(await read((tx) => tx.visitStep.count())).toBe(1)
  })

  it('is taken once per key', async () => {
    const { patientId, drain } = await dueSoon()
    const body = { drain, kind: 'exchange', state: 'booked', at: iso(30) }
    const first = await step(patientId, 1, body, 'same')
    expect(await step(patientId, 1, body, 'same')).toEqual(first)
    expect(await read((tx) => tx.visitStep.count())).toBe(1)
  })

  it('stands in the access record', async () => {
    const { patientId, drain } = await dueSoon()
    await step(patientId, 1, { drain, kind: 'exchange', state: 'booked', at: iso(30) })
    expect(await read((tx) => tx.accessRecord.findMany({ where: { action: 'visit' } }))).toMatchObject([
      { staffId: nurse.id, patientId, what: `exchange of drain ${drain}: booked for ${iso(30)}` },
    ])
  })
})

describe('a step that is refused', () => {
  const refused = async (kind: string, body: (drain: string) => object, before?: NewVisitStep['state']) => {
    const { patientId, drain } = await dueSoon()
    const visit = before
      ? await step(patientId, 1, { drain, kind: 'exchange', state: 'booked', at: iso(30) })
      : null
    if (before === 'cancelled')
      await step(patientId, 2, { visit: visit?.id, drain, kind: 'exchange', state: 'cancelled' })
    const wanted = body(drain)
    const named = 'visit' in wanted ? { ...wanted, visit: visit?.id ?? 'nobody' } : wanted
    await expect(step(patientId, 3, named)).rejects.toMatchObject({ kind })
  }
  it('begins with done', () =>
    refused('invalid-input', (drain) => ({ drain, kind: 'exchange', state: 'done', at: iso(1) })))
  it('is booked for no time', () =>
    refused('invalid-input', (drain) => ({ drain, kind: 'exchange', state: 'booked' })))
  it('is booked for the past', () =>
    refused('invalid-input', (drain) => ({ drain, kind: 'exchange', state: 'booked', at: iso(2) })))
  it('is booked for a far day', () =>
    refused('invalid-input', (drain) => ({ drain, kind: 'exchange', state: 'booked', at: iso(800 * DAY) })))
  it('is called off at a time', () =>
    refused(
      'invalid-input',
      (drain) => ({ visit: 'it', drain, kind: 'exchange', state: 'cancelled', at: iso(4) }),
      'booked',
    ))
  it('is of another drain', () =>
    refused('invalid-input', () => ({ drain: 'none', kind: 'exchange', state: 'requested' })))
  it('goes on with a visit that is not there', () =>
    refused('not-found', (drain) => ({ visit: 'none', drain, kind: 'exchange', state: 'cancelled' })))
  it('goes on with a visit that is over', () =>
    refused(
      'conflict',
      (drain) => ({ visit: 'it', drain, kind: 'exchange', state: 'booked', at: iso(40) }),
      'cancelled',
    ))
  it('begins a second visit of the kind', () =>
    refused('conflict', (drain) => ({ drain, kind: 'exchange', state: 'requested' }), 'booked'))
  it('is another clinic’s', async () => {
    const { patientId, drain } = await dueSoon()
    await expect(
      stepVisit(stranger, patientId, { drain, kind: 'exchange', state: 'requested' }, 'k', at(1)),
    ).rejects.toMatchObject({ kind: 'not-found' })
  })
})

describe('an event of the drain', () => {
  const record = (patientId: string, drain: string, type: string, hours: number) =>
    recordStaffEvent(nurse, patientId, { at: iso(hours), drain, type }, `e${++count}`, at(hours))
  const states = async (patientId: string, hours: number) =>
    (await readPatientPage(nurse, patientId, at(hours))).visits
      .map(({ kind, state }) => `${kind} ${state}`)
      .sort()

  it('of removal settles its open visits', async () => {
    const { patientId, drain } = await dueSoon()
    await step(patientId, 1, { drain, kind: 'exchange', state: 'booked', at: iso(90) })
    await step(patientId, 1, { drain, kind: 'removal', state: 'requested' })
    await record(patientId, drain, 'removed', 20)
    expect(await states(patientId, 21)).toEqual(['exchange cancelled', 'removal done'])
  })

  it('of exchange settles the exchange that was booked for about then, and leaves one far ahead', async () => {
    const { patientId, drain } = await dueSoon()
    await step(patientId, 1, { drain, kind: 'exchange', state: 'booked', at: iso(90) })
    await record(patientId, drain, 'exchanged', 20)
    expect(await states(patientId, 21)).toEqual(['exchange booked'])
    await record(patientId, drain, 'exchanged', 89)
    expect(await states(patientId, 91)).toEqual(['exchange done'])
  })
})

it('a booking within another transaction is there with it, or not at all', async () => {
  const { patientId, drain } = await dueSoon()
  const wanted = { drain, kind: 'exchange' as const, state: 'booked' as const, at: iso(40) }
  await expect(
    write(async (tx) => {
      await bookVisitWithin(tx, nurse, patientId, wanted, at(1))
      throw new Error('the caller fails')
    }),
  ).rejects.toThrow('the caller fails')
  expect(await read((tx) => tx.visit.count())).toBe(0)
  await write((tx) => bookVisitWithin(tx, nurse, patientId, wanted, at(1)))
  expect((await booked(patientId, 1)).exchangeBookedFor).toBe(iso(40))
})
