import { beforeEach, describe, expect, test } from 'vitest'
import { replayPatient } from '../../../lib/audit/replay/replay-patient.ts'
import type { FindingCode } from '../../../lib/domain/words.ts'
import { changeOrders, receiveReport } from '../../../lib/intake/index.ts'
import { assess } from '../../../lib/rules/assess.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { read } from '../../../lib/store/index.ts'
import { composeRecord } from '../../../lib/store/record.ts'
import { historiesOf } from '../../../lib/store/replay-history.ts'
import { recordStaffEvent } from '../../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, wellReport } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { key, sweepUntil } from './clinic-life.ts'

databasePerTest()
beforeEach(openClinics)

/** Sends a report that tells of one hour and comes at another. */
const send = (patientId: string, body: object, received: number) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: key(), body },
    at(received),
  )

const morning = (day: number) => 24 * day - 4

/** Days of 400 mL, told as they come. */
async function steady(
  patientId: string,
  drain: string,
  days: number,
  but: readonly number[] = [],
): Promise<void> {
  for (let day = 1; day <= days; day++) {
    if (but.includes(day)) continue
    await sweepUntil(morning(day))
    await send(patientId, wellReport(drain, morning(day)), morning(day))
  }
}

/** When flags of a code opened: as they happened, and in the replay. In hours. */
async function opened(patientId: string, code: FindingCode, until: number) {
  await sweepUntil(until)
  const hours = (instant: string) => Math.round((Date.parse(instant) - at(0).getTime()) / 36_000) / 100
  const happened = await read((tx) =>
    tx.flag.findMany({ where: { patientId, code }, orderBy: { openedAt: 'asc' } }),
  )
  const [history] = await read((tx) => historiesOf(tx, CLINIC, [patientId], iso(until)))
  if (!history) throw new Error('there is no such patient')
  const sets = [{ from: Number.NEGATIVE_INFINITY, rules: standardRuleSet }]
  const span = { from: at(0).getTime(), until: at(until).getTime() }
  const { inForce } = replayPatient(history, sets, null, span)
  return {
    happened: happened.map(({ openedAt }) => hours(openedAt)),
    replayed: inForce.filter(({ flag }) => flag.code === code).map(({ flag }) => hours(flag.openedAt)),
  }
}

/** What the rules would say at an hour of the record as it stands at the end, received and recorded as if at once. */
async function knownTooEarly(patientId: string, hours: number, until: number): Promise<FindingCode[]> {
  const composed = await read((tx) => composeRecord(tx, patientId, at(until)))
  if (!composed) throw new Error('there is no such patient')
  const { record } = composed
  const reports = record.reports.map((one) => ({
    ...one,
    receivedAt:
      [one.receivedAt, ...(one.readings ?? []).map((reading) => reading.at)].sort()[0] ?? one.receivedAt,
  }))
  return assess({ ...record, reports }, standardRuleSet, iso(hours)).findings.map(({ code }) => code)
}

describe('what is known too early gives a wrong flag, and is not in a replay', { timeout: 60_000 }, () => {
  test('a late report: the log was missed until it came', async () => {
    const { patientId, drain } = await patient()
    await steady(patientId, drain, 6, [4])
    // The fourth day's report comes on the evening of the fifth, from a phone without a network until then.
    await send(patientId, wellReport(drain, morning(4)), morning(6) + 9)
    expect(await knownTooEarly(patientId, morning(5) - 4, 24 * 7)).not.toContain('log-missed')
    const { happened, replayed } = await opened(patientId, 'log-missed', 24 * 7)
    expect(happened).toEqual([morning(3) + 36])
    expect(replayed).toEqual(happened)
  })

  test('a back-dated exchange: the decline stood until it was recorded', async () => {
    const { patientId, drain } = await patient()
    await steady(patientId, drain, 5)
    await send(patientId, wellReport(drain, morning(6), 60), morning(6))
    const body = { at: iso(morning(5) + 12), drain, type: 'exchanged' }
    await recordStaffEvent(nurse, patientId, body, key(), at(morning(6) + 8))
    expect(await knownTooEarly(patientId, morning(6) + 1, 24 * 7)).not.toContain('output-decline')
    const { happened, replayed } = await opened(patientId, 'output-decline', 24 * 7)
    expect(happened).toEqual([morning(6)])
    expect(replayed).toEqual(happened)
  })

  test('an order change: the log was due by what was ordered then', async () => {
    const { patientId, drain } = await patient()
    await steady(patientId, drain, 3)
    await sweepUntil(morning(3) + 40)
    await changeOrders(
      nurse,
      patientId,
      drain,
      { why: 'once in three days is enough (invented)', logEveryHours: 72 },
      key(),
      at(morning(3) + 40),
    )
    expect(await knownTooEarly(patientId, morning(3) + 37, 24 * 6)).not.toContain('log-missed')
    const { happened, replayed } = await opened(patientId, 'log-missed', 24 * 6)
    expect(happened).toEqual([morning(3) + 36])
    expect(replayed).toEqual(happened)
  })
})
