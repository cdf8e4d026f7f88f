import { beforeEach, describe, expect, it } from 'vitest'
import type { StaffMember } from '../../lib/domain/staff.ts'
import { endFollowUp, receiveReport, stepVisit } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import {
  readPatientPage,
  recordCallback,
  recordStaffEvent,
  undoStaffEvent,
  withdrawStaffEvent,
} from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, otherNurse, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const SECOND = 1 / 3600
const pageOf = (patientId: string, hours: number) => readPatientPage(nurse, patientId, at(hours))
const record = (patientId: string, drain: string, type: string, hours: number, by: StaffMember = nurse) =>
  recordStaffEvent(by, patientId, { at: iso(hours), drain, type }, `e${++count}`, at(hours))
const undo = (patientId: string, event: string, hours: number, by: StaffMember = nurse) =>
  undoStaffEvent(by, patientId, event, at(hours))
const withdraw = (patientId: string, event: string, hours: number, body: object, by: StaffMember = nurse) =>
  withdrawStaffEvent(by, patientId, event, body, `w${++count}`, at(hours))
const says = (
  patientId: string,
  drain: string,
  hours: number,
  change: object = {},
  drainChange: object = {},
) =>
  receiveReport(
    {
      ...{ clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: `k${++count}` },
      body: {
        symptoms: {
          at: iso(hours),
          temperatureC: 36.7,
          drains: [{ drain, position: 'in-place', leak: false, draining: true, ...drainChange }],
          ...change,
        },
      },
    },
    at(hours),
  )
/** Everything that a screen or a timer reads of a patient's flags, but for when a row was last written. */
const flagsOf = (patientId: string) =>
  read(async (tx) =>
    (await tx.flag.findMany({ where: { patientId }, orderBy: { id: 'asc' } })).map(
      ({ changedAt: _, finding: __, ...flag }) => flag,
    ),
  )
const stateOf = (patientId: string) =>
  read((tx) =>
    tx.patientState.findUnique({ where: { patientId }, select: { urgency: true, nextCheckAt: true } }),
  )
const kindsOf = async (patientId: string, flagId: string | undefined, hours: number) =>
  (await pageOf(patientId, hours)).steps.filter((step) => step.flagId === flagId).map(({ kind }) => kind)

/** A leak of which the patient was spoken to, so that an exchange ends its flag; broken skin, which it does not end. */
async function spokenLeak() {
  const { patientId, drain } = await patient()
  await says(patientId, drain, 1, {}, { leak: true })
  const reached = { outcome: 'reached', spokenTo: 'patient', agreed: ['watch-and-report'], closes: [] }
  await recordCallback(nurse, patientId, reached, `c${++count}`, at(1.5))
  return { patientId, drain }
}

describe('an event that is taken back within its minute', () => {
  it('gives back what an exchange had ended: the same flag, at its old deadline', async () => {
    const { patientId, drain } = await spokenLeak()
    const before = await flagsOf(patientId)
    const stood = await stateOf(patientId)
    const { event, undoUntil } = await record(patientId, drain, 'exchanged', 2)
    expect(undoUntil).toBe(iso(2 + 60 * SECOND))
    const leak = (await flagsOf(patientId)).find(({ code }) => code === 'leak')
    expect(leak).toMatchObject({ state: 'ended', endedAt: iso(2) })
    await undo(patientId, event, 2 + 50 * SECOND)
    expect(await flagsOf(patientId)).toEqual(before)
    expect(await stateOf(patientId)).toEqual(stood)
    expect(await kindsOf(patientId, leak?.id, 3)).toEqual(['opened', 'ended', 'undone'])
    expect((await pageOf(patientId, 3)).record.staffEvents.map(({ type }) => type)).not.toContain('exchanged')
  })

  it('gives back all that a removal had ended, and a call that is owed', async () => {
    const { patientId, drain } = await patient()
    await says(patientId, drain, 1, { pain: 8, temperatureC: 39 }, { leak: true, position: 'moved' })
    const before = (await pageOf(patientId, 1.5)).flags
    expect(before.length).toBeGreaterThan(3)
    const { event } = await record(patientId, drain, 'removed', 2)
    await undo(patientId, event, 2 + SECOND)
    const after = (await pageOf(patientId, 2 + 2 * SECOND)).flags
    const told = (flags: typeof before) =>
      flags.map(({ id, state, urgency, actBy }) => ({ id, state, urgency, actBy })).toSorted(byId)
    expect(told(after)).toEqual(told(before))
  })

  it('ends what had opened by it alone', async () => {
    const { patientId, drain } = await patient()
    await says(patientId, drain, 1, { temperatureC: 39 })
    const before = await flagsOf(patientId)
    const { event } = await record(patientId, drain, 'capped', 2)
    const opened = (await flagsOf(patientId)).find(({ code }) => code === 'blocked-and-infected')
    expect(opened).toMatchObject({ state: 'open', urgency: 'at-once' })
    await undo(patientId, event, 2 + SECOND)
    const after = await flagsOf(patientId)
    expect(after.find(({ id }) => id === opened?.id)).toMatchObject({ state: 'ended' })
    expect(after.filter(({ id }) => id !== opened?.id)).toEqual(before)
  })

  it('a closed flag that it had ended stays closed, and does not come back as if it were news', async () => {
    const { patientId, drain } = await patient()
    await says(patientId, drain, 1, {}, { leak: true })
    const [leak] = (await pageOf(patientId, 1.5)).flags.filter(({ code }) => code === 'leak')
    const reached = {
      outcome: 'reached',
      spokenTo: 'patient',
      agreed: ['clinic-visit'],
      lookAgainAt: iso(30),
    }
    await recordCallback(nurse, patientId, { ...reached, closes: [leak?.id] }, `c${++count}`, at(1.5))
    const before = await flagsOf(patientId)
    const { event } = await record(patientId, drain, 'exchanged', 2)
    await undo(patientId, event, 2 + SECOND)
    expect(await flagsOf(patientId)).toEqual(before)
    await says(patientId, drain, 3, {}, { leak: true })
    expect((await flagsOf(patientId)).filter(({ code }) => code === 'leak')).toHaveLength(1)
  })

  it('opens the visits again that it had settled, one that was done by it among them', async () => {
    const { patientId, drain } = await patient()
    const step = (hours: number, body: object) => stepVisit(nurse, patientId, body, `v${++count}`, at(hours))
    const visits = async (hours: number) =>
      (await pageOf(patientId, hours)).visits.map(({ kind, state }) => `${kind} ${state}`).sort()
    const { id } = await step(1, { drain, kind: 'exchange', state: 'booked', at: iso(90) })
    await step(1, { drain, kind: 'removal', state: 'requested' })
    const { event } = await record(patientId, drain, 'removed', 2)
    expect(await visits(2)).toEqual(['exchange cancelled', 'removal done'])
    await undo(patientId, event, 2 + SECOND)
    expect(await visits(3)).toEqual(['exchange booked', 'removal requested'])
    await step(4, { visit: id, drain, kind: 'exchange', state: 'done', at: iso(4) })
    const [exchanged] = (await pageOf(patientId, 4)).events
    await undo(patientId, exchanged?.id ?? '', 4 + SECOND)
    expect(await visits(5)).toEqual(['exchange booked', 'removal requested'])
    expect((await pageOf(patientId, 5)).record.drains[0]?.exchangeBookedFor).toBe(iso(90))
  })

  it('stays readable with who and when, and still counted before it was taken back', async () => {
    const { patientId, drain } = await patient()
    const { event } = await record(patientId, drain, 'capped', 2)
    await undo(patientId, event, 2 + 30 * SECOND)
    expect((await pageOf(patientId, 3)).events).toMatchObject([
      {
        ...{ id: event, drain, type: 'capped', at: iso(2), by: nurse.name, withdrawnBy: nurse.name },
        ...{ withdrawnAt: iso(2 + 30 * SECOND), withdrawnWhy: null },
      },
    ])
    expect((await pageOf(patientId, 2 + 10 * SECOND)).record.staffEvents).toMatchObject([{ type: 'capped' }])
  })

  it('not after the minute, not by another, not of another patient or clinic, not with follow-up ended', async () => {
    const { patientId, drain } = await patient()
    const { event } = await record(patientId, drain, 'removed', 2)
    await expect(undo(patientId, event, 2 + 60 * SECOND)).rejects.toMatchObject({ kind: 'conflict' })
    await expect(undo(patientId, event, 2 + SECOND, otherNurse)).rejects.toThrow(/Only Nora Invented/)
    await expect(undo(patientId, event, 2 + SECOND, stranger)).rejects.toMatchObject({ kind: 'not-found' })
    const other = await patient()
    await expect(undo(other.patientId, event, 2 + SECOND)).rejects.toMatchObject({ kind: 'not-found' })
    await endFollowUp(nurse, patientId, { reason: 'removed' }, 'end', at(2 + 2 * SECOND))
    await expect(undo(patientId, event, 2 + 3 * SECOND)).rejects.toThrow(/Follow-up has ended/)
    expect((await pageOf(patientId, 3)).record.staffEvents).toMatchObject([{ type: 'removed' }])
  })

  it('twenty presses at once take it back once', async () => {
    const { patientId, drain } = await spokenLeak()
    const { event } = await record(patientId, drain, 'exchanged', 2)
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, i) => undo(patientId, event, 2 + (i + 1) * SECOND)),
    )
    expect(new Set(answers.map(({ withdrawnAt }) => withdrawnAt)).size).toBe(1)
    expect(await read((tx) => tx.flagStep.count({ where: { patientId, kind: 'undone' } }))).toBe(1)
    const entries = await read((tx) => tx.accessRecord.findMany({ where: { action: 'staff-event' } }))
    expect(entries.filter(({ what }) => what.startsWith('took back'))).toHaveLength(1)
  })
})

describe('an event that is withdrawn with a reason', () => {
  it('at any time and by anybody: assessed without it, and both are seen with the reason', async () => {
    const { patientId, drain } = await spokenLeak()
    const { event } = await record(patientId, drain, 'exchanged', 2)
    await withdraw(patientId, event, 50, { why: 'It was the other patient.' }, otherNurse)
    const page = await pageOf(patientId, 51)
    expect(page.events).toMatchObject([
      {
        id: event,
        withdrawnAt: iso(50),
        withdrawnBy: otherNurse.name,
        withdrawnWhy: 'It was the other patient.',
      },
    ])
    expect(page.record.staffEvents.map(({ type }) => type)).not.toContain('exchanged')
    const leak = page.flags.find(({ code }) => code === 'leak')
    expect(leak).toMatchObject({ state: 'open', since: iso(1) })
    expect(page.steps.filter(({ flagId }) => flagId === leak?.id).at(-1)).toMatchObject({
      ...{ kind: 'corrected', by: otherNurse.name },
      why: expect.stringContaining('It was the other patient.'),
    })
    const entries = await read((tx) => tx.accessRecord.findMany({ where: { action: 'staff-event' } }))
    expect(entries.at(-1)?.what).toContain('It was the other patient.')
    expect((await pageOf(patientId, 49)).record.staffEvents.map(({ type }) => type)).toContain('exchanged')
  })

  it('leaves a call owed for what had opened by it and nobody has spoken of', async () => {
    const { patientId, drain } = await patient()
    await says(patientId, drain, 1, { temperatureC: 39 })
    const { event } = await record(patientId, drain, 'capped', 2)
    await withdraw(patientId, event, 3, { why: 'Not capped after all.' })
    const flags = await flagsOf(patientId)
    expect(flags.find(({ code }) => code === 'blocked-and-infected')).toMatchObject({ state: 'owed' })
  })

  it('not without one, not twice, and what came with a call only with the call', async () => {
    const { patientId, drain } = await spokenLeak()
    const { event } = await record(patientId, drain, 'exchanged', 2)
    await expect(withdraw(patientId, event, 3, { why: ' ' })).rejects.toMatchObject({
      faults: [{ field: 'why' }],
    })
    await withdraw(patientId, event, 3, { why: 'mistake' }, otherNurse)
    await expect(withdraw(patientId, event, 4, { why: 'mistake' })).rejects.toThrow(
      /Ben Invented has withdrawn/,
    )
    await says(patientId, drain, 5, {}, { position: 'out' })
    const flags = (await pageOf(patientId, 5)).flags.filter(({ code }) => code === 'drain-out')
    const call = {
      ...{ outcome: 'reached', spokenTo: 'patient', agreed: ['emergency-department'], lookAgainAt: iso(8) },
      closes: flags.map(({ id }) => id),
    }
    await recordCallback(nurse, patientId, call, `c${++count}`, at(6))
    const closing = await read((tx) => tx.staffEvent.findFirstOrThrow({ where: { type: 'flag-closed' } }))
    await expect(withdraw(patientId, closing.id, 7, { why: 'mistake' })).rejects.toThrow(/came with a call/)
  })
})

const byId = (a: { id: string }, b: { id: string }) => a.id.localeCompare(b.id)
