import { beforeEach, describe, expect, test } from 'vitest'
import { Known } from '../../../lib/audit/replay/known.ts'
import { replayPatient } from '../../../lib/audit/replay/replay-patient.ts'
import { changeOrders, editPatient, endFollowUp, stepVisit, undoOrders } from '../../../lib/intake/index.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { read } from '../../../lib/store/index.ts'
import { composeRecord } from '../../../lib/store/record.ts'
import {
  admit,
  correctCallback,
  discharge,
  recordCallback,
  sweep,
  undoCallback,
  undoStaffEvent,
} from '../../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { rulesWith } from '../../support/build.ts'
import {
  begin,
  call,
  event,
  histories,
  hoursOf,
  key,
  type Living,
  putInForce,
  send,
  standing,
  sweepUntil,
} from './clinic-life.ts'

databasePerTest()
beforeEach(openClinics)

const ms = (hours: number) => at(hours).getTime()

/** The flags of a patient with their steps, as the store has them. */
async function happened(patientId: string) {
  const flags = await read((tx) =>
    tx.flag.findMany({ where: { patientId }, include: { steps: { orderBy: { at: 'asc' } } } }),
  )
  return flags
    .map(({ drainId, code, nature, state, urgency, since, actBy, openedAt, closedAt, endedAt, ...rest }) => ({
      ...{ code, drain: drainId, nature, state, urgency, since, actBy, openedAt, closedAt, endedAt },
      ...{ lookAgainAt: rest.lookAgainAt, spokenAt: rest.spokenAt, holdsStill: rest.holdsStill },
      steps: rest.steps
        .map(({ at: when, kind, urgency: then }) => `${when} ${kind} ${then}`)
        .filter((text) => !/ (paused|resumed|corrected) /.test(text))
        .sort(),
    }))
    .sort(byOpening)
}

const byOpening = (a: { openedAt: string; code: string }, b: { openedAt: string; code: string }) =>
  `${a.openedAt} ${a.code}`.localeCompare(`${b.openedAt} ${b.code}`)

/** The same of a replay of the rule sets that were in force. */
function replayed(history: Awaited<ReturnType<typeof histories>>[number], inForce: Sets, until: number) {
  const { inForce: lives } = replayPatient(history, inForce, null, { from: ms(24), until: ms(until) })
  return lives
    .map(({ flag, steps }) => ({
      ...{
        code: flag.code,
        drain: flag.drain,
        nature: flag.nature,
        state: flag.state,
        urgency: flag.urgency,
      },
      ...{ since: flag.since, actBy: flag.actBy, openedAt: flag.openedAt, closedAt: flag.closedAt },
      ...{ endedAt: flag.endedAt, lookAgainAt: flag.lookAgainAt, spokenAt: flag.spokenAt },
      holdsStill: flag.holdsStill,
      steps: steps.map(({ at: when, kind, urgency }) => `${when} ${kind} ${urgency}`).sort(),
    }))
    .sort(byOpening)
}
type Sets = Parameters<typeof replayPatient>[1]
const ALWAYS: Sets = [{ from: Number.NEGATIVE_INFINITY, rules: standardRuleSet }]

async function expectExact(until: number, inForce: Sets = ALWAYS): Promise<number> {
  let flags = 0
  for (const history of await histories(until)) {
    const were = await happened(history.patientId)
    flags += were.length
    expect(history.unreadable).toEqual([])
    expect(replayed(history, inForce, until)).toEqual(were)
  }
  return flags
}

/** A report of a fever, which calls for a call within the hour. */
const fever = (of: Living, hours: number, temperatureC: number) =>
  send(of, { id: '', receivedAt: iso(hours), symptoms: { at: iso(hours), temperatureC } }, hours)

/** Reports of some patients in the order of receipt, each after the sweeps that were due before it. */
async function live(
  patients: readonly Living[],
  until: number,
  then: (of: Living, hours: number) => Promise<void>,
) {
  const reports = patients
    .flatMap((of) => of.simulated.reports.map((report) => ({ of, report })))
    .filter(({ report }) => hoursOf(report.receivedAt) < until)
    .sort((a, b) => Date.parse(a.report.receivedAt) - Date.parse(b.report.receivedAt))
  for (const { of, report } of reports) {
    const hours = hoursOf(report.receivedAt)
    await sweepUntil(hours)
    await send(of, report)
    await then(of, hours)
  }
  await sweepUntil(until)
}

describe('a replay of the rule set in force', { timeout: 240_000 }, () => {
  test('gives exactly the flags that happened, with reports, sweeps and calls', async () => {
    const patients = [await begin(3, 21), await begin(8, 21), await begin(17, 21)]
    let told = 0
    await live(patients, 24 * 21, async (of, hours) => {
      told++
      if (told % 3 === 0 && (await standing(of.patientId)).length > 0) await call(of.patientId, hours + 0.2)
      else if (told % 4 === 0)
        await recordCallback(nurse, of.patientId, { outcome: 'no-answer' }, key(), at(hours + 0.1))
    })
    expect(await expectExact(24 * 21)).toBeGreaterThan(10)
  })

  test('with a rule set that changed, in hospital, with what was undone, corrected, ordered and ended', async () => {
    const patients = [await begin(4, 16), await begin(5, 16)]
    const [first] = patients as [Living]
    const drain = [...first.drains.values()][0] ?? ''
    const rules = rulesWith({ declineRatio: 0.85, logGraceHours: 6 })
    let told = 0
    const once = new Set<string>()
    const unless = (name: string, is: boolean) => is && !once.has(name) && Boolean(once.add(name))
    await live(patients, 24 * 16, async (of, hours) => {
      told++
      const { patientId } = of
      const own = of === first
      if (unless('rules', hours > 24 * 5)) {
        await putInForce({ ...rules, version: 'test-2' }, hours + 0.01)
        await sweep(at(hours + 0.01))
      }
      if (told % 2 === 0 && (await standing(patientId)).length > 0) await call(patientId, hours + 0.1)
      if (!own && unless('corrected', hours > 24 * 9)) {
        await fever(of, hours + 0.2, 38.9)
        const id = await call(patientId, hours + 0.25)
        const body = { outcome: 'no-answer' as const, why: 'a wrong tick' }
        await correctCallback(nurse, patientId, id, body, key(), at(hours + 0.3))
      }
      if (own && unless('undone', hours > 24 * 10)) {
        await fever(of, hours + 0.2, 38.7)
        const id = await call(patientId, hours + 0.25)
        await undoCallback(nurse, patientId, id, at(hours + 0.255))
      }
      if (own && unless('fever before admission', hours > 24 * 6)) await fever(of, hours + 0.35, 38.4)
      if (own && unless('orders', hours > 24 * 2))
        await changeOrders(
          nurse,
          patientId,
          drain,
          { why: 'less often', logEveryHours: 12 },
          key(),
          at(hours + 0.4),
        )
      if (own && unless('orders again', hours > 24 * 3)) {
        const { version } = await changeOrders(
          nurse,
          patientId,
          drain,
          { why: 'mistaken', logEveryHours: 2 },
          key(),
          at(hours + 0.4),
        )
        await undoOrders(nurse, patientId, drain, version, at(hours + 0.41))
      }
      if (own && unless('visit', hours > 24 * 4))
        await stepVisit(
          nurse,
          patientId,
          { drain, kind: 'exchange', state: 'booked', at: iso(hours + 200) },
          key(),
          at(hours + 0.45),
        )
      if (own && unless('admitted', hours > 24 * 6))
        await admit(nurse, patientId, { at: iso(hours) }, key(), at(hours + 0.5))
      if (own && unless('home', hours > 24 * 8)) {
        const drains = [...of.drains.values()].map((id) => ({ drain: id, found: 'in-place', at: iso(hours) }))
        await discharge(nurse, patientId, { drains }, key(), at(hours + 0.5))
      }
      if (!own && unless('exchanged', hours > 24 * 4)) {
        const { event: id } = await event(of, 'exchanged', hours + 0.5, hours - 3)
        await undoStaffEvent(nurse, patientId, id, at(hours + 0.51))
        await event(of, 'exchanged', hours + 0.6, hours - 2)
      }
      if (!own && unless('details', hours > 24 * 7))
        await editPatient(
          nurse,
          patientId,
          { usual: { pain: 5, general: [] }, why: 'told on the phone' },
          key(),
          at(hours + 0.7),
        )
      if (!own && unless('left', hours > 24 * 13)) {
        await event(of, 'removed', hours + 0.8)
        await endFollowUp(nurse, patientId, { reason: 'removed' }, key(), at(hours + 0.9))
      }
    })
    const inForce: Sets = [
      ...ALWAYS,
      ...(await read((tx) => tx.ruleSet.findMany())).map(({ inForceFrom }) => ({
        from: Date.parse(inForceFrom),
        rules: { ...rules, version: 'test-2' },
      })),
    ]
    expect([...once]).toHaveLength(12)
    const kinds = (await read((tx) => tx.flagStep.groupBy({ by: ['kind'] }))).map(({ kind }) => kind)
    for (const kind of ['undone', 'returned', 'paused', 'resumed', 'closed', 'ended'])
      expect(kinds).toContain(kind)
    expect(await expectExact(24 * 16, inForce)).toBeGreaterThan(15)
    // And at each moment the record is what the live assessment composes.
    for (const history of await histories(24 * 16)) {
      const known = new Known(history, ms(24 * 16))
      for (let hours = 1; hours < 24 * 16; hours += 31) {
        const { record } = (await read((tx) => composeRecord(tx, history.patientId, at(hours)))) ?? {}
        const own = known.at(ms(hours))
        expect(own.drains).toEqual(record?.drains)
        expect(own.staffEvents.filter((one) => one.at <= iso(hours))).toEqual(record?.staffEvents)
        expect(own.reports.filter((one) => one.receivedAt <= iso(hours)).map(({ id }) => id)).toEqual(
          record?.reports.map(({ id }) => id),
        )
      }
    }
  })

  test('is of this clinic alone', async () => {
    const { patientId } = await begin(3, 2)
    expect(await histories(24)).toHaveLength(1)
    const { historiesOf } = await import('../../../lib/store/replay-history.ts')
    expect(await read((tx) => historiesOf(tx, 'clinic-elsewhere', [patientId], iso(24)))).toEqual([])
    expect(CLINIC).not.toBe('clinic-elsewhere')
  })
})
