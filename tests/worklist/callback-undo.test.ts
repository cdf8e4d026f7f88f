import { beforeEach, describe, expect, it } from 'vitest'
import { receiveReport } from '../../lib/intake/index.ts'
import { read, write } from '../../lib/store/index.ts'
import {
  correctCallback,
  readPatientPage,
  readWorklist,
  recordCallback,
  sweep,
  takeRow,
  undoCallback,
} from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, otherNurse, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const SECOND = 1 / 3600
const leaking = async (patientId: string, drain: string, hours: number, change: object = { leak: true }) =>
  receiveReport(
    {
      clinicId: CLINIC,
      patientId,
      door: 'check-in',
      source: patientId,
      by: null,
      key: `k${++count}`,
      body: {
        symptoms: {
          at: iso(hours),
          temperatureC: 36.7,
          drains: [{ drain, position: 'in-place', leak: false, draining: true, ...change }],
        },
      },
    },
    at(hours),
  )
const rowOf = async (hours: number, patientId: string) =>
  (await readWorklist(nurse, at(hours))).rows.find((row) => row.patientId === patientId)
const flagOf = async (hours: number, patientId: string) =>
  (await rowOf(hours, patientId))?.flags.find(({ code }) => code === 'leak')?.id ?? ''
const reached = (closes: string[], change: object = {}) => ({
  outcome: 'reached',
  spokenTo: 'patient',
  interpreter: true,
  agreed: ['clinic-visit'],
  closes,
  lookAgainAt: iso(20),
  ...change,
})
const { closes: _closes, ...corrected } = reached([])
const call = (patientId: string, hours: number, body: object, by = nurse, key = `c${++count}`) =>
  recordCallback(by, patientId, body, key, at(hours))
const correct = (patientId: string, id: string, hours: number, body: object, key = `x${++count}`) =>
  correctCallback(otherNurse, patientId, id, { why: 'wrong patient on the line', ...body }, key, at(hours))
const pageOf = (patientId: string, hours: number) => readPatientPage(nurse, patientId, at(hours))
/** All that a call may change, to be compared. */
const stateOf = (patientId: string) =>
  read(async (tx) => ({
    flags: (await tx.flag.findMany({ where: { patientId } })).map(
      ({ changedAt: _, finding: __, ...flag }) => flag,
    ),
    calls: await tx.patientState.findUnique({
      where: { patientId },
      select: {
        lookAgainAt: true,
        lookAgainWhy: true,
        lastSpokenAt: true,
        attempts: true,
        nextCheckAt: true,
      },
    }),
    holder: (await tx.hold.findUnique({ where: { patientId } }))?.staffId,
  }))

async function aLeak() {
  const { patientId, drain } = await patient()
  await leaking(patientId, drain, 1)
  await call(patientId, 1.2, { outcome: 'no-answer' })
  await takeRow(nurse, patientId, at(1.9))
  return { patientId, drain, flag: await flagOf(1.9, patientId) }
}

describe('a call that is taken back within its minute', () => {
  it('leaves flags, attempts, promise and hold as they were, and says so in a step', async () => {
    const { patientId, flag } = await aLeak()
    const before = await stateOf(patientId)
    const { callback } = await call(patientId, 2, reached([flag]))
    expect(await rowOf(2, patientId)).toBeUndefined()
    await undoCallback(nurse, patientId, callback, at(2 + 59 * SECOND))
    expect(await stateOf(patientId)).toEqual(before)
    const page = await pageOf(patientId, 2.1)
    expect(page.steps.filter(({ flagId }) => flagId === flag).map(({ kind }) => kind)).toEqual([
      'opened',
      'closed',
      'undone',
    ])
    expect(page.callbacks[0]).toMatchObject({ id: callback, undoneBy: nurse.name, interpreter: true })
    expect(page.record.staffEvents).toEqual([])
    await call(patientId, 2.2, reached([flag]))
    expect(await rowOf(2.2, patientId)).toBeUndefined()
  })

  it('gives an attempt back as well', async () => {
    const { patientId } = await patient()
    const before = await stateOf(patientId)
    const { callback } = await call(patientId, 2, { outcome: 'no-answer' })
    await undoCallback(nurse, patientId, callback, at(2 + SECOND))
    expect(await stateOf(patientId)).toEqual(before)
  })

  it('a promise of a call that closed nothing is gone', async () => {
    const { patientId } = await patient()
    const { callback } = await call(patientId, 2, reached([]))
    await undoCallback(nurse, patientId, callback, at(2 + SECOND))
    await sweep(at(20))
    expect(await rowOf(20, patientId)).toBeUndefined()
  })

  it('not after the minute, not by another, not of another patient', async () => {
    const { patientId, flag } = await aLeak()
    const { callback } = await call(patientId, 2, reached([flag]))
    const undo = (by = nurse, hours = 2 + SECOND, id = patientId) => undoCallback(by, id, callback, at(hours))
    await expect(undo(nurse, 2 + 60 * SECOND)).rejects.toMatchObject({ kind: 'conflict' })
    await expect(undo(otherNurse)).rejects.toMatchObject({ kind: 'not-allowed' })
    await expect(undo(nurse, 2, (await patient()).patientId)).rejects.toMatchObject({ kind: 'not-found' })
    expect(await rowOf(2.1, patientId)).toBeUndefined()
  })

  it('not over what has happened since', async () => {
    const { patientId, drain, flag } = await aLeak()
    const { callback } = await call(patientId, 2, reached([flag]))
    await leaking(patientId, drain, 2 + 10 * SECOND, { leak: false })
    await leaking(patientId, drain, 2 + 20 * SECOND)
    const since = await stateOf(patientId)
    await expect(undoCallback(nurse, patientId, callback, at(2 + 30 * SECOND))).rejects.toMatchObject({
      kind: 'conflict',
    })
    expect(await stateOf(patientId)).toEqual(since)
  })

  it('not under a later call', async () => {
    const { patientId, flag } = await aLeak()
    const { callback } = await call(patientId, 2, reached([flag]))
    await call(patientId, 2 + 5 * SECOND, { outcome: 'no-answer' })
    await expect(undoCallback(nurse, patientId, callback, at(2 + 10 * SECOND))).rejects.toMatchObject({
      kind: 'conflict',
    })
  })

  it('twenty presses at once take it back once', async () => {
    const { patientId, flag } = await aLeak()
    const { callback } = await call(patientId, 2, reached([flag]))
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, i) =>
        undoCallback(nurse, patientId, callback, at(2 + (i + 1) * SECOND)),
      ),
    )
    expect(new Set(answers.map(({ undoneAt }) => undoneAt)).size).toBe(1)
    expect(await read((tx) => tx.flagStep.count({ where: { patientId, kind: 'undone' } }))).toBe(1)
  })
})

describe('a call that is corrected', () => {
  it('stays readable beside its correction, and no longer counts', async () => {
    const { patientId, flag } = await aLeak()
    const { callback } = await call(patientId, 2, reached([flag]))
    const body = { ...corrected, agreed: ['imaging'], spokenTo: 'helper', note: 'The sister spoke.' }
    const { callback: newer, returned } = await correct(patientId, callback, 3, {
      ...body,
      lookAgainAt: iso(30),
    })
    expect(returned).toEqual([])
    const { callbacks, steps, flags } = await pageOf(patientId, 3.1)
    expect(callbacks.slice(0, 2)).toMatchObject([
      {
        id: newer,
        corrects: callback,
        at: iso(2),
        by: otherNurse.name,
        spokenTo: 'helper',
        closes: [flag],
      },
      { id: callback, correctedBy: newer, spokenTo: 'patient', why: null },
    ])
    expect(steps.at(-1)).toMatchObject({ kind: 'corrected', by: otherNurse.name })
    expect(flags[0]).toMatchObject({ state: 'closed', lookAgainAt: iso(30) })
    await sweep(at(21))
    expect(await rowOf(21, patientId)).toBeUndefined()
  })

  it('to one that reached nobody brings back what it closed, at its old deadline', async () => {
    const { patientId, drain, flag } = await aLeak()
    const actBy = (await rowOf(1.95, patientId))?.actBy
    const { callback } = await call(patientId, 2, reached([flag]))
    const { returned } = await correct(patientId, callback, 3, { outcome: 'left-message' })
    expect(returned).toEqual([flag])
    expect(await rowOf(3, patientId)).toMatchObject({
      actBy,
      overdue: true,
      attempts: 2,
      flags: [{ id: flag, state: 'open', spokenAt: null }],
    })
    expect((await pageOf(patientId, 3.1)).record.staffEvents).toEqual([])
    await leaking(patientId, drain, 4, { leak: false })
    expect(await rowOf(4, patientId)).toMatchObject({ flags: [{ id: flag, state: 'owed' }] })
  })

  it('to one that reached nobody makes what eased after it as urgent as before', async () => {
    const { patientId, drain } = await patient()
    const draining = (hours: number, appearance: string) =>
      receiveReport(
        {
          clinicId: CLINIC,
          patientId,
          door: 'check-in',
          source: patientId,
          by: null,
          key: `k${++count}`,
          body: { readings: [{ drain, at: iso(hours), volumeMl: 400, appearance }] },
        },
        at(hours),
      )
    const bleeding = async (hours: number) =>
      (await rowOf(hours, patientId))?.flags.find(({ code }) => code === 'bleeding')
    await draining(1, 'red')
    const before = await bleeding(1)
    expect(before).toMatchObject({ urgency: 'within-1h' })
    const { callback } = await call(patientId, 2, reached([], { lookAgainAt: null }))
    await draining(3, 'pink')
    await sweep(at(26))
    expect(await bleeding(26)).toMatchObject({ urgency: 'within-24h' })
    const { returned } = await correct(patientId, callback, 27, { outcome: 'no-answer' })
    expect(returned).toEqual([before?.id])
    expect(await bleeding(27)).toMatchObject({ urgency: 'within-1h', actBy: before?.actBy, spokenAt: null })
  })

  it.each([
    ['an outcome that does not fit what it closed', { agreed: ['nothing-needed'] }, 'agreed'],
    ['no time to look again', { lookAgainAt: null }, 'lookAgainAt'],
    ['a time to look again that has passed', { lookAgainAt: iso(2.5) }, 'lookAgainAt'],
    ['no reason', { why: ' ' }, 'why'],
  ])('not to %s', async (_name, change, field) => {
    const { patientId, flag } = await aLeak()
    const { callback } = await call(patientId, 2, reached([flag]))
    const body = { ...corrected, ...change }
    await expect(correct(patientId, callback, 3, body)).rejects.toMatchObject({ faults: [{ field }] })
    expect(await read((tx) => tx.callback.count({ where: { corrects: callback } }))).toBe(0)
  })

  it('never to one that reached somebody: that is a call of its own', async () => {
    const { patientId } = await aLeak()
    const { callback } = await call(patientId, 2, { outcome: 'no-answer' })
    await expect(correct(patientId, callback, 3, { ...corrected })).rejects.toMatchObject({
      faults: [{ field: 'outcome' }],
    })
  })

  it('once: the second nurse is told who did, and the correction can be corrected', async () => {
    const { patientId, flag } = await aLeak()
    const { callback } = await call(patientId, 2, reached([flag]))
    const body = { ...corrected }
    const tries = await Promise.allSettled(
      Array.from({ length: 20 }, () => correct(patientId, callback, 3, body)),
    )
    const done = tries.filter(({ status }) => status === 'fulfilled')
    expect(done).toHaveLength(1)
    await expect(correct(patientId, callback, 4, body)).rejects.toThrow(/Ben Invented has corrected/)
    const [first] = done as PromiseFulfilledResult<{ callback: string }>[]
    const { returned } = await correct(patientId, first?.value.callback ?? '', 4, { outcome: 'no-answer' })
    expect(returned).toEqual([flag])
    expect((await pageOf(patientId, 4.1)).record.staffEvents).toEqual([])
  })
})

describe('calls at once', () => {
  it('of twenty under one key one is recorded', async () => {
    const { patientId, flag } = await aLeak()
    await Promise.all(Array.from({ length: 20 }, () => call(patientId, 2, reached([flag]), nurse, 'one')))
    expect(await read((tx) => tx.callback.count({ where: { outcome: 'reached' } }))).toBe(1)
  })

  it('closing the same: one nurse does, the others are told who did', async () => {
    const { patientId, flag } = await aLeak()
    await write((tx) => tx.hold.deleteMany({ where: { patientId } }))
    const tries = await Promise.allSettled(
      Array.from({ length: 20 }, (_, i) => call(patientId, 2, reached([flag]), i % 2 ? nurse : otherNurse)),
    )
    expect(tries.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    await expect(call(patientId, 2.1, reached([flag]))).rejects.toMatchObject({
      faults: [
        { message: expect.stringMatching(/Leak was closed by (Nora|Ben) Invented at 03:00; unmark it/) },
      ],
    })
    expect(await read((tx) => tx.callback.count({ where: { outcome: 'reached' } }))).toBe(1)
  })
})
