import { beforeEach, describe, expect, it } from 'vitest'
import { receiveReport } from '../../lib/intake/index.ts'
import { listen } from '../../lib/notify/bus.ts'
import { read } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const incoming = (
  patientId: string,
  key: string,
  body: unknown,
  door: 'check-in' | 'phone-in' | 'system' = 'check-in',
) => ({
  clinicId: CLINIC,
  patientId,
  door,
  source: door === 'phone-in' ? nurse.id : `link:${patientId}`,
  by: door === 'phone-in' ? nurse.id : null,
  key,
  body,
})
const reports = () => read((tx) => tx.report.count())

describe('a report', () => {
  it('is stored whole, and read back as it was sent', async () => {
    const { patientId, drain } = await patient()
    const body = {
      ...wellReport(drain, 2),
      flushes: [{ drain, at: iso(2), volumeMl: 10, ease: 'stiff' }],
      note: 'All as ever.',
      reporter: 'helper',
    }
    const receipt = await receiveReport(incoming(patientId, 'k1', body), at(2.1))
    expect(receipt).toMatchObject({
      receivedAt: iso(2.1),
      receipt: expect.stringMatching(/^[2-9A-Z]{4}-[2-9A-Z]{4}$/),
    })
    const composed = await read((tx) => composeRecord(tx, patientId, at(3)))
    const [report] = composed?.record.reports ?? []
    expect(report).toMatchObject({
      id: receipt.report,
      receivedAt: iso(2.1),
      readings: [{ drain, at: iso(2), volumeMl: 400, appearance: 'clear', total: false }],
      flushes: [{ drain, at: iso(2), volumeMl: 10, ease: 'stiff' }],
      dressings: [{ drain, found: 'clean', skin: 'intact', changed: true }],
      symptoms: {
        temperatureC: 36.8,
        chills: false,
        pain: 0,
        general: [],
        drains: [{ drain, position: 'in-place', leak: false, draining: true }],
      },
    })
    expect(await read((tx) => tx.report.findFirst())).toMatchObject({
      reporter: 'helper',
      note: 'All as ever.',
      timeZone: 'America/Denver',
    })
  })

  it('is assessed in the same transaction: its flags, state, letter and access record are there', async () => {
    const { patientId, drain } = await patient()
    const body = { symptoms: { at: iso(2), drains: [{ drain, position: 'out' }] } }
    const receipt = await receiveReport(incoming(patientId, 'k1', body), at(2))
    expect(receipt.advice[0]?.urgency).toBe('emergency')
    expect(await read((tx) => tx.flag.findMany())).toMatchObject([
      { code: 'drain-out', urgency: 'at-once', state: 'open', drainId: drain },
    ])
    expect(await read((tx) => tx.flagStep.findMany())).toMatchObject([{ kind: 'opened', by: null }])
    expect(await read((tx) => tx.patientState.findFirst())).toMatchObject({
      urgency: 'at-once',
      lastHeardAt: iso(2),
      lastHeardFrom: 'patient',
    })
    expect(await read((tx) => tx.outbox.findMany())).toMatchObject([{ kind: 'pressing-flags', patientId }])
    expect(await read((tx) => tx.accessRecord.findMany({ where: { action: 'report' } }))).toMatchObject([
      { patientId, staffId: null },
    ])
  })

  it('tells who has the worklist open, once', async () => {
    const { patientId, drain } = await patient()
    const heard: unknown[] = []
    const stop = listen(CLINIC, (change) => heard.push(change))
    await receiveReport(incoming(patientId, 'k1', wellReport(drain, 1)), at(1))
    await receiveReport(incoming(patientId, 'k1', wellReport(drain, 1)), at(1))
    stop()
    expect(heard).toEqual([{ patientId, kind: 'report' }])
  })

  it('says who gave it: a nurse on the phone, a system', async () => {
    const { patientId, drain } = await patient()
    await receiveReport(incoming(patientId, 'k1', wellReport(drain, 1), 'phone-in'), at(1))
    await receiveReport(incoming(patientId, 'k2', wellReport(drain, 2), 'system'), at(2))
    const stored = await read((tx) => tx.report.findMany({ orderBy: { receivedAt: 'asc' } }))
    expect(stored).toMatchObject([
      { reporter: 'phone-in', enteredBy: nurse.id },
      { reporter: 'system', enteredBy: null },
    ])
  })

  it('corrects an earlier one; both are kept', async () => {
    const { patientId, drain } = await patient()
    const first = await receiveReport(incoming(patientId, 'k1', wellReport(drain, 1, 40)), at(1))
    await receiveReport(
      incoming(patientId, 'k2', { ...wellReport(drain, 1, 400), supersedes: first.report }),
      at(2),
    )
    const composed = await read((tx) => composeRecord(tx, patientId, at(3)))
    expect(composed?.record.reports?.map(({ supersedes }) => supersedes)).toEqual([null, first.report])
  })

  it('of a time long past, or to come, is taken: the rules judge it', async () => {
    const { patientId, drain } = await patient()
    await receiveReport(incoming(patientId, 'k1', wellReport(drain, -24 * 800)), at(1))
    await receiveReport(incoming(patientId, 'k2', wellReport(drain, 90)), at(2))
    expect(await reports()).toBe(2)
  })

  it('takes null for could not measure', async () => {
    const { patientId, drain } = await patient()
    await receiveReport(incoming(patientId, 'k1', wellReport(drain, 1, null)), at(1))
    expect(await read((tx) => tx.reading.findFirst())).toMatchObject({ volumeMl: null })
  })
})

describe('a report is refused, and nothing stored', () => {
  it.each([
    ['an unknown field', { readings: [], symptoms: { at: iso(1) }, mood: 'good' }, 'mood'],
    [
      'a volume that nobody confirmed',
      { readings: [{ drain: 'x', at: iso(1), volumeMl: 6000 }] },
      'readings[0].volumeMl',
    ],
    ['a negative volume', { readings: [{ drain: 'x', at: iso(1), volumeMl: -1 }] }, 'readings[0].volumeMl'],
    [
      'a time without offset',
      { readings: [{ drain: 'x', at: '2026-03-02T08:00:00', volumeMl: 1 }] },
      'readings[0].at',
    ],
    ['nothing at all', {}, '(whole)'],
    ['no object', 'hello', '(whole)'],
  ])('for %s, naming the field', async (_name, body, field) => {
    const { patientId } = await patient()
    const attempt = receiveReport(incoming(patientId, 'k1', body), at(1))
    await expect(attempt).rejects.toMatchObject({ kind: 'invalid-input', faults: [{ field }] })
    expect(await reports()).toBe(0)
  })

  it('for a drain that is not this patient’s, naming those that are', async () => {
    const one = await patient()
    const other = await patient()
    const attempt = receiveReport(incoming(one.patientId, 'k1', wellReport(other.drain, 1)), at(1))
    await expect(attempt).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: expect.arrayContaining([
        { field: 'readings[0].drain', value: other.drain, message: expect.stringContaining(one.drain) },
      ]),
    })
    expect(await reports()).toBe(0)
  })

  it('for a correction of another patient’s report', async () => {
    const one = await patient()
    const other = await patient()
    const theirs = await receiveReport(incoming(other.patientId, 'k1', wellReport(other.drain, 1)), at(1))
    const attempt = receiveReport(
      incoming(one.patientId, 'k2', { ...wellReport(one.drain, 1), supersedes: theirs.report }),
      at(2),
    )
    await expect(attempt).rejects.toMatchObject({ faults: [{ field: 'supersedes' }] })
  })

  it('for a patient of another clinic, as for none', async () => {
    const { patientId, drain } = await patient()
    const body = wellReport(drain, 1)
    for (const wrong of [
      { ...incoming(patientId, 'k', body), clinicId: 'clinic-elsewhere' },
      incoming('nobody', 'k', body),
    ])
      await expect(receiveReport(wrong, at(1))).rejects.toMatchObject({ kind: 'not-found' })
  })
})

describe('the idempotency key', () => {
  it('gives 20 equal receipts and one report for 20 equal submissions at once', async () => {
    const { patientId, drain } = await patient()
    const receipts = await Promise.all(
      Array.from({ length: 20 }, () => receiveReport(incoming(patientId, 'k1', wellReport(drain, 1)), at(1))),
    )
    expect(new Set(receipts.map((receipt) => JSON.stringify(receipt))).size).toBe(1)
    expect([
      await reports(),
      await read((tx) => tx.reading.count()),
      await read((tx) => tx.outbox.count()),
    ]).toEqual([1, 1, 0])
  })

  it('takes one of 20 other bodies at once, and refuses the others', async () => {
    const { patientId, drain } = await patient()
    const tries = await Promise.allSettled(
      Array.from({ length: 20 }, (_, i) =>
        receiveReport(incoming(patientId, 'k1', wellReport(drain, 1, 300 + i)), at(1)),
      ),
    )
    const refused = tries
      .filter((tried) => tried.status === 'rejected')
      .map((tried) => (tried.reason as { kind: string }).kind)
    expect(refused).toEqual(Array(19).fill('key-reused'))
    expect(await reports()).toBe(1)
  })

  it('cares for what a body says, not for the order of its fields', async () => {
    const { patientId, drain } = await patient()
    const body = wellReport(drain, 1)
    const turned = Object.fromEntries(Object.entries(body).reverse())
    const first = await receiveReport(incoming(patientId, 'k1', body), at(1))
    expect(await receiveReport(incoming(patientId, 'k1', turned), at(5))).toEqual(first)
  })

  it('is each source’s own, and for one patient', async () => {
    const one = await patient()
    const other = await patient()
    await receiveReport(incoming(one.patientId, 'k1', wellReport(one.drain, 1)), at(1))
    await receiveReport(incoming(one.patientId, 'k1', wellReport(one.drain, 1), 'phone-in'), at(1))
    expect(await reports()).toBe(2)
    const sameSource = {
      ...incoming(other.patientId, 'k1', wellReport(one.drain, 1)),
      source: `link:${one.patientId}`,
    }
    await expect(receiveReport(sameSource, at(1))).rejects.toMatchObject({ kind: 'key-reused' })
  })
})
