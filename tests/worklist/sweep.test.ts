import { readFileSync, rmSync } from 'node:fs'
import path from 'node:path'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { receiveReport } from '../../lib/intake/index.ts'
import { closeStore, read, write } from '../../lib/store/index.ts'
import { takeLease } from '../../lib/store/leases.ts'
import { readWorklist, startSweep, sweep, sweepHealth } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

const database = databasePerTest()
beforeEach(openClinics)

const send = (patientId: string, hours: number, body: unknown) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: `k${hours}`, body },
    at(hours),
  )

describe('the sweep', () => {
  it('raises what only time changes: a log that is missed', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, wellReport(drain, 24))
    expect(await sweep(at(59.9))).toMatchObject({ assessed: 0 })
    expect((await readWorklist(nurse, at(59.9))).rows).toEqual([])
    await sweep(at(60))
    expect((await readWorklist(nurse, at(60))).rows).toMatchObject([
      { patientId, flags: [{ code: 'log-missed', state: 'open' }] },
    ])
  })

  it('reads no patient who is not due', async () => {
    const due = await patient()
    const others = [await patient(), await patient(), await patient()]
    for (const { patientId, drain } of others) await send(patientId, 30, wellReport(drain, 30))
    await closeStore()
    const log = path.join(database.folder, 'queries.log')
    vi.stubEnv('OUTFLOW_TEST_MODE', '1')
    vi.stubEnv('OUTFLOW_QUERY_LOG', log)
    expect(await sweep(at(37))).toMatchObject({ assessed: 1, failed: 0 })
    await closeStore()
    const queries = readFileSync(log, 'utf8')
    rmSync(log)
    expect(queries).toContain(due.patientId)
    for (const { patientId } of others) expect(queries).not.toContain(patientId)
  })

  it('does nothing and takes no lease when nobody is due', async () => {
    await patient()
    expect(await sweep(at(1))).toMatchObject({ assessed: 0 })
    expect(await read((tx) => tx.lease.count())).toBe(0)
  })

  it('leaves it to another process that sweeps now, until its lease has lapsed', async () => {
    await patient()
    const real = new Date()
    await write((tx) => takeLease(tx, 'sweep', 'another process', real, 60_000))
    expect(await sweep(at(100))).toMatchObject({ assessed: 0 })
    await write((tx) =>
      tx.lease.update({
        where: { name: 'sweep' },
        data: { until: new Date(real.getTime() - 1).toISOString() },
      }),
    )
    expect(await sweep(at(100))).toMatchObject({ assessed: 1 })
  })

  it('goes on past a patient who cannot be assessed, names them, and tries again later', async () => {
    const bad = await patient()
    const good = await patient()
    await write((tx) =>
      tx.patient.update({ where: { id: bad.patientId }, data: { timeZone: 'Nowhere/Land' } }),
    )
    const swept = await sweep(at(37))
    expect(swept).toMatchObject({ assessed: 1, failed: 1, errors: [{ patientId: bad.patientId }] })
    const worklist = await readWorklist(nurse, at(37))
    expect(worklist.rows).toMatchObject([{ patientId: good.patientId }])
    expect(worklist.unreadable).toMatchObject([
      { what: 'patient', id: bad.patientId, why: expect.stringContaining('could not be assessed') },
    ])

    const state = () =>
      read((tx) => tx.patientState.findFirstOrThrow({ where: { patientId: bad.patientId } }))
    expect((await state()).nextCheckAt).toBe(iso(37 + 20 / 3600))
    expect(await sweep(at(37.001))).toMatchObject({ failed: 0 })
    expect(await sweep(at(37.01))).toMatchObject({ failed: 1 })
    expect(await state()).toMatchObject({ failures: 2 })
    await write((tx) =>
      tx.patient.update({ where: { id: bad.patientId }, data: { timeZone: 'America/Denver' } }),
    )
    expect(await sweep(at(38))).toMatchObject({ assessed: 1, failed: 0 })
    expect(await state()).toMatchObject({ failures: 0, troubled: false, lastError: null })
  })

  it('runs by a timer of its own, once per process, and says that it is alive', async () => {
    await patient()
    expect(await sweepHealth()).toMatchObject({ alive: false })
    const stop = startSweep()
    startSweep()
    await expect.poll(() => read((tx) => tx.flag.count()), { timeout: 5000 }).toBeGreaterThan(0)
    await expect.poll(async () => (await sweepHealth()).alive).toBe(true)
    stop()
    expect((await sweepHealth()).alive).toBe(false)
  })
})
