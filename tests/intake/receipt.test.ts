import { beforeEach, describe, expect, it } from 'vitest'
import { emptyProfile } from '../../lib/domain/profile.ts'
import { standardAdvice } from '../../lib/domain/texts/advice.ts'
import { enrol, receiveReport } from '../../lib/intake/index.ts'
import { listen } from '../../lib/notify/bus.ts'
import { read, write } from '../../lib/store/index.ts'
import { sweep } from '../../lib/worklist/index.ts'
import { at, CLINIC, enrolment, iso, nurse, openClinics, patient, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { phoneWith } from './sent-by-link.ts'

databasePerTest()
beforeEach(openClinics)

const names = (receipt: { advice: { name: string }[] }) => receipt.advice.map(({ name }) => name)

describe('the advice of a receipt', () => {
  it('is what the answers call for and what the rules hold of the whole record, each once', async () => {
    const { link, drain } = await patient()
    const { send } = await phoneWith(link, 1)
    const tube = (more: object) => ({ symptoms: { at: iso(2), drains: [{ drain, ...more }] } })
    expect(names(await send('k1', tube({ position: 'moved' }), 2))).toEqual(['drain-moved', 'clinic-first'])
    // The next report is well, but a moved tube stands until somebody has seen to it.
    expect(names(await send('k2', wellReport(drain, 3), 3))).toEqual(['drain-moved', 'clinic-first'])
    const fever = { symptoms: { at: iso(4), temperatureC: 38.6 } }
    expect(names(await send('k3', fever, 4))).toEqual(['blocked-and-infected', 'drain-moved', 'clinic-first'])
  })

  it('tells of a fall that the report alone does not show', async () => {
    const { link, drain } = await patient(0, { usualMlPerDay: null })
    const { send } = await phoneWith(link, 1)
    for (const day of [0, 1, 2, 3, 4])
      await send(`d${day}`, wellReport(drain, 2 + 24 * day, 400), 2 + 24 * day)
    for (const part of [0, 1, 2])
      await send(`p${part}`, wellReport(drain, 106 + 8 * part, 40), 106 + 8 * part)
    const last = await send('p3', wellReport(drain, 127, 36), 127)
    expect(names(last)).toContain('not-draining')
  })

  it('is found again as it was given before texts had names', async () => {
    const { link } = await patient()
    const { send } = await phoneWith(link, 1)
    const first = await send('k1', { note: 'Hello.' }, 1)
    const old = { ...first, advice: first.advice.map(({ urgency, text }) => ({ urgency, text })) }
    await write((tx) => tx.report.updateMany({ data: { receipt: JSON.stringify(old) } }))
    const again = await send('k1', { note: 'Hello.' }, 2)
    expect(again).toMatchObject(old)
  })

  it('does not speak of upkeep that the nurse sees to', async () => {
    const { link, drain } = await patient(0, {
      plan: { logEveryHours: 24, dressingEveryHours: 48, flush: { volumeMl: 10, everyHours: 12 } },
    })
    const { send } = await phoneWith(link, 1)
    expect(names(await send('k1', wellReport(drain, 100), 100))).toEqual(['keep-watching', 'clinic-first'])
  })

  it('is in the language of the page, else the patient’s, and stays as it was given', async () => {
    const profile = { ...emptyProfile, checkInLanguage: 'es' as const }
    const { patientId, link } = await enrol(nurse, enrolment({ profile }), 'e', at(0))
    const { send } = await phoneWith(link, 1)
    const note = { note: 'Hola.' }
    const first = await send('k1', note, 1)
    expect(first.advice[0]).toEqual({
      name: 'keep-watching',
      urgency: 'information',
      ...standardAdvice.es['keep-watching'],
    })
    expect(await send('k1', note, 2, { language: 'en' })).toEqual(first)
    const second = await send('k2', note, 2, { language: 'ar' })
    expect(second.advice[0]?.text).toBe(standardAdvice.ar['keep-watching'].text)
    const stored = await read((tx) => tx.report.findFirst({ where: { patientId, key: 'k2' } }))
    expect(JSON.parse(stored?.receipt ?? '{}').advice).toEqual(second.advice)
  })
})

describe('a report whose assessment fails', () => {
  const breakRules = () =>
    write((tx) =>
      tx.ruleSet.create({
        data: {
          id: 'broken',
          clinicId: CLINIC,
          version: 'x',
          body: '{"version":"x","thresholds":{"nonsense":{}}}',
          inForceFrom: iso(1),
          recordedAt: iso(1),
          recordedBy: 'the test',
        },
      }),
    )

  it('is stored and acknowledged with what its answers call for, and staff see the trouble', async () => {
    const { patientId, link, drain } = await patient()
    const { send } = await phoneWith(link, 1)
    await send('k1', wellReport(drain, 1), 1)
    await breakRules()
    const heard: unknown[] = []
    const stop = listen(CLINIC, (change) => heard.push(change))
    const receipt = await send('k2', { symptoms: { at: iso(2), drains: [{ drain, position: 'out' }] } }, 2)
    stop()
    expect(names(receipt)).toEqual(['drain-out', 'clinic-first'])
    expect(heard).toEqual([{ patientId, kind: 'report' }])
    expect(await read((tx) => tx.report.count())).toBe(2)
    expect(await read((tx) => tx.flag.count({ where: { code: 'drain-out' } }))).toBe(0)
    const state = await read((tx) => tx.patientState.findUniqueOrThrow({ where: { patientId } }))
    expect(state).toMatchObject({
      troubled: true,
      failures: 1,
      lastError: expect.stringContaining('nonsense'),
      lastHeardAt: iso(2),
      lastHeardFrom: 'patient',
      assessedAt: iso(1),
    })
    expect(Date.parse(state.nextCheckAt ?? '')).toBeLessThanOrEqual(at(2).getTime() + 60_000)
  })

  it('is assessed by the sweep as soon as the rules run again', async () => {
    const { patientId, link, drain } = await patient()
    const { send } = await phoneWith(link, 1)
    await breakRules()
    await send('k1', { symptoms: { at: iso(2), drains: [{ drain, position: 'out' }] } }, 2)
    await write((tx) => tx.ruleSet.deleteMany())
    await sweep(at(3))
    expect(await read((tx) => tx.flag.findMany())).toMatchObject([{ code: 'drain-out', patientId }])
    expect(await read((tx) => tx.patientState.findFirst())).toMatchObject({
      troubled: false,
      lastError: null,
    })
  })

  it('entered by staff is kept too', async () => {
    const { patientId, drain } = await patient()
    await breakRules()
    await receiveReport(
      {
        clinicId: CLINIC,
        patientId,
        door: 'phone-in',
        source: nurse.id,
        by: nurse.id,
        key: 'n1',
        body: wellReport(drain, 2),
      },
      at(2),
    )
    expect(await read((tx) => tx.report.count())).toBe(1)
  })
})
