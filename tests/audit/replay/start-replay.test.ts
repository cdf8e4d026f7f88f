import { beforeEach, describe, expect, test } from 'vitest'
import { cancelReplay, readReplay, readReplayPatient, startReplay } from '../../../lib/audit/replay/index.ts'
import { settled } from '../../../lib/audit/replay/launch.ts'
import type { StaffMember } from '../../../lib/domain/staff.ts'
import { receiveReport } from '../../../lib/intake/index.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { read, write } from '../../../lib/store/index.ts'
import { at, CLINIC, openClinics, stranger, wellReport } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { rulesWith } from '../../support/build.ts'
import { begin, hoursOf, key, send, sweepUntil } from './clinic-life.ts'

databasePerTest()
beforeEach(openClinics)

const physician: StaffMember = {
  ...{ id: 'doctor', clinicId: CLINIC, name: 'Dora Invented' },
  ...{ email: 'doctor@larkfield.example', role: 'physician' },
}
const NOW = at(24 * 12)
const wanted = {
  rules: { ...rulesWith({ logGraceHours: 40 }), version: 'try-1' },
  from: '2026-03-03',
  until: '2026-03-12',
}

async function somePatients(): Promise<string[]> {
  const ids: string[] = []
  for (const seed of [3, 8]) {
    const of = await begin(seed, 11)
    ids.push(of.patientId)
    for (const report of of.simulated.reports) {
      const hours = hoursOf(report.receivedAt)
      if (hours > 24 * 11) break
      await sweepUntil(hours)
      await send(of, report)
    }
  }
  await sweepUntil(24 * 12)
  return ids
}
const refusal = async (body: object, now = NOW) => {
  const error = await startReplay(physician, body, key(), now).catch((one) => one)
  const faults: { field: string; message: string }[] = error.faults
  return faults.length > 0 ? faults.map(({ field, message }) => `${field}: ${message}`) : error
}

describe('a replay', { timeout: 120_000 }, () => {
  test('runs in a process of its own, keeps what it found, and shows a patient under both rule sets', async () => {
    const ids = await somePatients()
    const sameKey = key()
    const { replay: id } = await startReplay(physician, { ...wanted, laterFrom: '2026-03-08' }, sameKey, NOW)
    expect(await startReplay(physician, { ...wanted, laterFrom: '2026-03-08' }, sameKey, NOW)).toEqual({
      replay: id,
    })
    const other = await startReplay(physician, wanted, key(), NOW).catch((one) => one)
    expect(other).toMatchObject({ kind: 'conflict', message: expect.stringContaining('is running') })
    await settled(id)

    const replay = await readReplay(physician, id, NOW)
    expect(replay).toMatchObject({ state: 'done', done: 2, total: 2, trouble: null })
    const { result } = replay
    expect(result?.agreement).toMatchObject({ different: 0 })
    expect(result?.agreement.same).toBe(
      await read((tx) =>
        tx.flag.count({
          where: { openedAt: { gte: '2026-03-03T07:00:00.000Z', lt: '2026-03-13T06:00:00.000Z' } },
        }),
      ),
    )
    // A log is asked for more than a day later: what it raised before is lost, and nothing else.
    expect(
      result?.whole.byCode.filter(({ lost, gained }) => lost > 0 || gained > 0).map(({ code }) => code),
    ).toEqual(['log-missed'])
    expect(result?.whole.flags.lost).toBe(
      (result?.earlier?.flags.lost ?? 0) + (result?.later?.flags.lost ?? 0),
    )
    expect(result?.earlier).toMatchObject({ from: '2026-03-03', until: '2026-03-07', patients: 2 })
    expect(result?.later).toMatchObject({ from: '2026-03-08', until: '2026-03-12' })

    const differing = result?.differ[0]
    expect(ids).toContain(differing?.patientId)
    const patient = await readReplayPatient(physician, id, differing?.patientId ?? '', NOW)
    expect(patient.flags.flatMap(({ inForce, draft }) => (inForce && !draft ? [inForce.code] : []))).toEqual(
      differing?.lost.map(({ code }) => code),
    )
    await expect(readReplay(stranger, id, NOW)).rejects.toMatchObject({ kind: 'not-found' })
    await expect(readReplayPatient(stranger, id, ids[0] ?? '', NOW)).rejects.toMatchObject({
      kind: 'not-found',
    })
    const log = await read((tx) => tx.accessRecord.findMany({ where: { action: { contains: 'replay' } } }))
    expect(log.map(({ patientId }) => patientId)).toContain(differing?.patientId)
  })

  test('holds what was known when it was asked for, whatever streams in meanwhile', async () => {
    const ids = await somePatients()
    const today = { ...wanted, until: '2026-03-14' }
    const { replay: id } = await startReplay(physician, today, key(), NOW)
    const [drain] = await read((tx) => tx.drain.findMany({ where: { patientId: ids[0] ?? '' } }))
    for (let i = 1; i <= 6; i++) {
      const body = wellReport(drain?.id ?? '', 24 * 12 + i / 10)
      await receiveReport(
        {
          clinicId: CLINIC,
          patientId: ids[0] ?? '',
          door: 'system',
          source: 'x',
          by: null,
          key: key(),
          body,
        },
        at(24 * 12 + i / 10),
      )
    }
    await settled(id)
    const { result } = await readReplay(physician, id, NOW)
    const { replay: again } = await startReplay(physician, today, key(), NOW)
    await settled(again)
    const second = (await readReplay(physician, again, NOW)).result
    expect({ ...second, seconds: 0 }).toEqual({ ...result, seconds: 0 })
    expect(result).toMatchObject({ cutOff: NOW.toISOString(), agreement: { different: 0 } })
    const patient = await readReplayPatient(physician, id, ids[0] ?? '', at(24 * 13))
    expect(patient.reports.every((received) => received <= NOW.toISOString())).toBe(true)
  })

  test('is cancelled, once, and leaves room for the next', async () => {
    await somePatients()
    const { replay: id } = await startReplay(physician, wanted, key(), NOW)
    expect(await cancelReplay(physician, id, NOW)).toEqual({ state: 'cancelled' })
    await settled(id)
    expect(await readReplay(physician, id, NOW)).toMatchObject({ state: 'cancelled', result: null })
    expect(await cancelReplay(physician, id, NOW)).toEqual({ state: 'cancelled' })
    const { replay: next } = await startReplay(physician, wanted, key(), NOW)
    await settled(next)
    expect((await readReplay(physician, next, NOW)).state).toBe('done')
  })

  test('whose server has ended counts as failed, and keeps nobody waiting', async () => {
    await somePatients()
    await write((tx) =>
      tx.replay.create({
        data: {
          ...{ id: 'lost', clinicId: CLINIC, body: JSON.stringify(wanted.rules), from: wanted.from },
          ...{
            until: wanted.until,
            state: 'running',
            recordedAt: at(200).toISOString(),
            recordedBy: 'doctor',
          },
          beatAt: at(201).toISOString(),
        },
      }),
    )
    expect(await readReplay(physician, 'lost', NOW)).toMatchObject({
      state: 'failed',
      trouble: expect.stringContaining('Start it again'),
    })
  })

  test('is refused where there is nothing to replay', async () => {
    expect(await refusal(wanted)).toEqual([expect.stringContaining('no report yet')])
    await somePatients()
    expect(await refusal({ ...wanted, rules: { ...standardRuleSet, version: 'same' } })).toEqual([
      expect.stringMatching(/^rules: changes nothing: .*2026\.1/),
    ])
    expect(await refusal({ ...wanted, until: '2026-03-20' })).toEqual([
      expect.stringContaining('until: accepted'),
    ])
    expect(await refusal({ ...wanted, from: '2026-02-01' })).toEqual([
      expect.stringContaining('first report'),
    ])
    expect(await refusal({ ...wanted, laterFrom: wanted.from })).toEqual([
      expect.stringContaining('laterFrom'),
    ])
    expect(await refusal({ ...wanted, rules: null })).toEqual([expect.stringContaining('draft: is missing')])
    expect(await refusal({ ...wanted, rules: rulesWith({ feverC: 45 }) })).toEqual([
      expect.stringMatching(/rules: thresholds\.feverC.*37\.5 to 39/),
    ])
    expect(await refusal({ ...wanted, rules: null, draft: 'none' })).toMatchObject({ kind: 'not-found' })
    expect(await read((tx) => tx.replay.count())).toBe(0)
  })
})
