import { beforeEach, describe, expect, it } from 'vitest'
import { receiveReport } from '../../lib/intake/index.ts'
import { isAdmitted } from '../../lib/store/admissions.ts'
import { read } from '../../lib/store/index.ts'
import {
  admit,
  discharge,
  readPatientPage,
  readWorklist,
  sweep,
  takeFirstFree,
} from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const goIn = (
  patientId: string,
  hours: number,
  body: object = { at: iso(hours) },
  by = nurse,
  key = `a${++count}`,
) => admit(by, patientId, body, key, at(hours))
const goHome = (patientId: string, hours: number, drains: object[], key = `d${++count}`) =>
  discharge(nurse, patientId, { drains }, key, at(hours))
const send = (patientId: string, hours: number, body: unknown) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: `k${++count}`, body },
    at(hours),
  )
const rows = async (hours: number) => (await readWorklist(nurse, at(hours))).rows
const page = (patientId: string, hours: number) => readPatientPage(nurse, patientId, at(hours))
const leaking = (drain: string, hours: number) => {
  const well = wellReport(drain, hours)
  return {
    ...well,
    symptoms: { ...well.symptoms, drains: [{ drain, position: 'in-place', leak: true, draining: true }] },
  }
}

describe('a stay in hospital', () => {
  it('keeps the flags in sight, in a part of their own, without a deadline', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, leaking(drain, 24))
    expect(await rows(26)).toMatchObject([{ part: 'clinical', overdue: true, admission: null }])
    await goIn(patientId, 26, { at: iso(25.5), place: 'Ward 4' })
    expect(await rows(30)).toMatchObject([
      {
        part: 'in-hospital',
        urgency: 'within-1h',
        actBy: null,
        overdue: false,
        admission: { since: iso(25.5), place: 'Ward 4' },
        flags: [{ code: 'leak', state: 'open' }],
      },
    ])
    expect((await page(patientId, 30)).admission).toEqual({ since: iso(25.5), place: 'Ward 4' })
    expect((await page(patientId, 30)).steps.at(-1)).toMatchObject({ kind: 'paused', by: nurse.name })
    await expect(takeFirstFree(nurse, 'first', at(30))).rejects.toMatchObject({ kind: 'not-found' })
  })

  it('stays in sight although nothing is flagged', async () => {
    const { patientId } = await patient()
    await goIn(patientId, 1)
    const worklist = await readWorklist(nurse, at(2))
    expect(worklist.rows).toMatchObject([
      { patientId, part: 'in-hospital', urgency: 'none', actBy: null, flags: [] },
    ])
    expect(worklist.nothingFlagged).toBe(0)
  })

  it('ends no flag by itself, shows a new report, calls nobody and reminds of nothing', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, leaking(drain, 24))
    await goIn(patientId, 25)
    const letters = await read((tx) => tx.outbox.count())
    await send(patientId, 30, wellReport(drain, 30))
    expect((await rows(30))[0]).toMatchObject({
      flags: [{ code: 'leak', state: 'open' }],
      lastHeardAt: iso(30),
    })
    await send(patientId, 31, {
      ...wellReport(drain, 31),
      readings: [{ drain, at: iso(31), volumeMl: 100, appearance: 'clots' }],
    })
    expect((await rows(31))[0]?.flags.map(({ code }) => code).sort()).toEqual(['bleeding', 'leak'])
    await sweep(at(100))
    expect(await read((tx) => tx.outbox.count())).toBe(letters)
    expect(await read((tx) => tx.escalation.count())).toBe(0)
    expect(await read((tx) => tx.patientState.findFirstOrThrow())).toMatchObject({ nextReminderAt: null })
  })

  it('ends when every drain is confirmed: the events are recorded and the deadlines count from there', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, leaking(drain, 24))
    await goIn(patientId, 25)
    expect(await goHome(patientId, 72, [{ drain, found: 'in-place', at: iso(71) }])).toEqual({
      endedAt: iso(72),
    })
    expect(await read((tx) => isAdmitted(tx, patientId))).toBe(false)
    const { flags, steps, record } = await page(patientId, 72)
    const leak = flags.find(({ code }) => code === 'leak')
    expect(leak).toMatchObject({ state: 'open', urgency: 'within-1h', actBy: iso(73), since: iso(24) })
    expect(steps.filter(({ flagId }) => flagId === leak?.id).map(({ kind }) => kind)).toEqual([
      'opened',
      'paused',
      'resumed',
    ])
    expect(record.staffEvents).toMatchObject([{ at: iso(71), drain, type: 'position-checked' }])
    const [row] = await rows(72)
    expect(row).toMatchObject({ part: 'clinical', overdue: false, actBy: iso(73), admission: null })
    expect(row?.flags.every(({ actBy }) => actBy > iso(72))).toBe(true)
  })

  it('ends what the confirmation answers: a new tube ends the leak, and the call is owed', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, leaking(drain, 24))
    await goIn(patientId, 25)
    await goHome(patientId, 72, [{ drain, found: 'exchanged', at: iso(50) }])
    expect((await page(patientId, 72)).flags.find(({ code }) => code === 'leak')).toMatchObject({
      state: 'owed',
      actBy: iso(73),
    })
  })

  it('is recorded once, however often it is sent, and not twice over', async () => {
    const { patientId, drain } = await patient()
    const first = await goIn(patientId, 1, { at: iso(1) }, nurse, 'same')
    expect(await goIn(patientId, 1, { at: iso(1) }, nurse, 'same')).toEqual(first)
    await expect(goIn(patientId, 2)).rejects.toMatchObject({ kind: 'conflict' })
    await goHome(patientId, 3, [{ drain, found: 'in-place', at: iso(3) }])
    await expect(goHome(patientId, 4, [])).rejects.toMatchObject({ kind: 'conflict' })
  })

  it('refuses what does not fit, and changes nothing', async () => {
    const { patientId, drain } = await patient()
    await expect(goIn(patientId, 1, { at: iso(5) })).rejects.toMatchObject({ faults: [{ field: 'at' }] })
    await expect(goIn(patientId, 1, {})).rejects.toMatchObject({ kind: 'invalid-input' })
    await expect(goIn(patientId, 1, { at: iso(1) }, stranger)).rejects.toMatchObject({ kind: 'not-found' })
    await goIn(patientId, 2)
    for (const drains of [
      [],
      [{ drain: 'other', found: 'in-place', at: iso(3) }],
      [{ drain, found: 'in-place', at: iso(1) }],
      [{ drain, found: 'in-place', at: iso(9) }],
      [
        { drain, found: 'in-place', at: iso(3) },
        { drain, found: 'removed', at: iso(3) },
      ],
    ])
      await expect(goHome(patientId, 4, drains)).rejects.toMatchObject({ kind: 'invalid-input' })
    expect(await read((tx) => isAdmitted(tx, patientId))).toBe(true)
    expect(await read((tx) => tx.staffEvent.count())).toBe(0)
  })
})
