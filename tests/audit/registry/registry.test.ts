import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { beforeEach, describe, expect, it } from 'vitest'
import { exportRegistry } from '../../../lib/audit/registry/index.ts'
import { ageGroup, nameable } from '../../../lib/audit/registry/mask.ts'
import { RegistryFile, registryColumns } from '../../../lib/domain/registry.ts'
import { enrol, receiveReport } from '../../../lib/intake/index.ts'
import { read, write } from '../../../lib/store/index.ts'
import { recordCallback } from '../../../lib/worklist/index.ts'
import { at, CLINIC, enrolment, iso, nurse, openClinics, wellReport } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { ada, elsewhere, employ } from '../rules/house.ts'

databasePerTest()
beforeEach(async () => {
  await openClinics()
  await employ(ada, elsewhere)
})

let keys = 0
const key = () => `registry-${++keys}`

/** Of twelve the first is alone, the next five share something, and the six that follow something else. */
const third = <T>(i: number, alone: T, five: T, six: T) => (i === 0 ? alone : i < 6 ? five : six)

/**
 * Twelve patients with a fever each, one of them very old and with a rare drain, of whom six are followed no longer; calls and events
 * with words.
 */
async function aPanel() {
  const all = []
  for (let i = 0; i < 12; i++) {
    const given = enrolment(
      {
        birthDate: third(i, '1930-01-15', '1950-05-17', '1960-05-17'),
        name: `Zelda Quillfeather-${i} (invented)`,
      },
      third<object>(
        i,
        { kind: 'pleural', label: 'secret lung place', side: undefined },
        { kind: 'biliary', label: 'secret bile place', side: undefined },
        { label: 'secret kidney place' },
      ),
    )
    const { patientId } = await enrol(nurse, given, key(), at(0))
    const { id: drain } = await read((tx) => tx.drain.findFirstOrThrow({ where: { patientId } }))
    const { symptoms, ...rest } = wellReport(drain, 20)
    await receiveReport(
      {
        ...{ clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: key() },
        body: { ...rest, symptoms: { ...symptoms, temperatureC: 38.6 }, note: 'Secret words of mine' },
      },
      at(20),
    )
    await recordCallback(nurse, patientId, { outcome: 'no-answer', note: 'Secret note' }, key(), at(21.5))
    await write((tx) =>
      tx.outsideEvent.create({
        data: {
          ...{ id: `event-${i}`, clinicId: CLINIC, patientId, drainId: drain, source: 'staff' },
          ...{ kind: third(i, 'death', 'admission', 'emergency-visit'), at: iso(60) },
          ...{ note: 'Secret outside note', recordedAt: iso(70), recordedBy: nurse.id },
        },
      }),
    )
    if (i >= 6)
      await write((tx) =>
        tx.patient.update({
          where: { id: patientId },
          data: { followUpEndedAt: iso(72), followUpEnd: 'transferred' },
        }),
      )
    all.push(patientId)
  }
  return all
}

/** That a drain leaks, as a flag that the rules opened. */
async function leak(patientId: string): Promise<void> {
  const { id: drainId } = await read((tx) => tx.drain.findFirstOrThrow({ where: { patientId } }))
  const flag = await read((tx) => tx.flag.findFirstOrThrow({ where: { patientId } }))
  await write((tx) =>
    tx.flag.create({ data: { ...flag, id: `leak-${patientId}`, code: 'leak', drainId, openedAt: iso(30) } }),
  )
}

const take = async (file: string, who = ada) => (await exportRegistry(who, file, at(100))).text
const table = async (file: string): Promise<Record<string, string>[]> =>
  parse(await take(file), { columns: true, record_delimiter: '\r\n' })

/** The rows of `counts.csv` of no finding. */
const totals = async () =>
  (await table('counts.csv'))
    .filter(({ finding }) => finding === '')
    .map(({ finding: _, flags: __, ...row }) => row)

/** Everything in the store that names somebody or tells when: names and their parts, numbers, ids, dates, words. */
async function secrets(): Promise<string[]> {
  return read(async (tx) => {
    const patients = await tx.patient.findMany()
    const staff = await tx.staff.findMany()
    const ids = await Promise.all([
      tx.drain.findMany(),
      tx.flag.findMany(),
      tx.report.findMany(),
      tx.callback.findMany(),
      tx.outsideEvent.findMany(),
      tx.patientLink.findMany(),
      tx.clinic.findMany(),
    ])
    const people = [...patients, ...staff].flatMap(({ name }) => [name, ...name.split(/[\s-]+/)])
    return [
      ...people.filter((word) => word.length > 2),
      ...patients.flatMap((one) => [one.recordNumber, one.birthDate, one.phone ?? '', one.timeZone]),
      ...staff.map(({ email }) => email),
      ...[...patients, ...staff, ...ids.flat()].map(({ id }) => id),
      ...['Larkfield', 'Elsewhere', 'ecret', '555', 'Denver'],
    ].filter(Boolean)
  })
}

describe('an export for a registry', () => {
  it('holds no identifier of any patient, no date, no words and no id of the store', async () => {
    await aPanel()
    const known = await secrets()
    expect(known.length).toBeGreaterThan(60)
    for (const file of ['drains.csv', 'flags.csv', 'events.csv', 'counts.csv']) {
      const text = (await take(file)).toLowerCase()
      expect(known.filter((secret) => text.includes(secret.toLowerCase()))).toEqual([])
      expect(text).not.toMatch(/\d{4}-\d{2}|\d{2}:\d{2}|\d{1,2}[./]\d{1,2}[./]\d{2,4}|@|20\d\d/)
    }
  })

  it('tells days since placement, and withholds what few have with what would tell it', async () => {
    await aPanel()
    const drains = await table('drains.csv')
    const few = [...Array(6).fill('withheld')]
    // Beside the one rare drain the five of the next smallest kind: six are withheld, and which kind is the rare one is not told.
    expect(drains.map(({ kind }) => kind).toSorted()).toEqual([...Array(6).fill('nephrostomy'), ...few])
    expect(drains.map(({ age_group }) => age_group).toSorted()).toEqual([...Array(6).fill('60-69'), ...few])
    expect(drains.map(({ readings }) => readings)).toEqual(drains.map(() => '1'))
    const fevers = (await table('flags.csv')).filter(({ finding }) => finding === 'infection-signs')
    expect(fevers).toHaveLength(12)
    // Placed 30 days before enrolment.
    for (const fever of fevers)
      expect(fever).toMatchObject({ day: '30', hours_to_attempt: '1.5', hours_to_reached: '', state: 'open' })
    const events = await table('events.csv')
    expect(events.map(({ event, day }) => [event, day]).toSorted()).toEqual([
      ...Array(6).fill(['emergency-visit', '32']),
      ...Array(6).fill(['withheld', '32']),
    ])
  })

  it('tells how long those were followed who are not any more: of the others the day of the export would tell a date', async () => {
    await aPanel()
    const told = (await table('drains.csv')).map(({ days_followed, ended }) => [ended, days_followed])
    expect(told.toSorted()).toEqual([
      ...Array(6).fill(['followed', '']),
      ...Array(6).fill(['transferred', '3']),
    ])
  })

  it('counts nothing under five, also not nothing, and no file tells what another withholds', async () => {
    await aPanel()
    const counts = await table('counts.csv')
    const flags = await table('flags.csv')
    const of = (kind: string, finding: string) =>
      counts.find((row) => row.kind === kind && row.finding === finding)
    expect(of('whole patient', 'infection-signs')).toMatchObject({ patients: '12', flags: '12' })
    expect(of('pleural', 'leak')).toMatchObject({ patients: '<5', flags: '<5' })
    for (const row of counts.filter(({ finding }) => finding)) {
      const kind = row.kind === 'whole patient' ? '' : row.kind
      const named = flags.filter((flag) => flag.kind === kind && flag.finding === row.finding)
      const isTold = /^\d+$/.test(row.flags ?? '')
      if (isTold) expect(Number(row.patients)).toBeGreaterThanOrEqual(5)
      else expect(['<5', 'withheld']).toContain(row.flags)
      expect(named).toHaveLength(isTold ? Number(row.flags) : 0)
    }
  })

  it('tells how long each kind was at risk and silent, for a rate without dates', async () => {
    const all = await aPanel()
    expect(await totals()).toEqual([
      // Six with kidney drains for three days each, five for the four until the export, one until death; one day heard of each.
      { kind: 'whole patient', patients: '12', days: '41', silent_days: '29' },
      { kind: 'nephrostomy', patients: '6', days: '18', silent_days: '12' },
      ...[
        { kind: 'nephroureteral', patients: '<5' },
        { kind: 'biliary', patients: 'withheld' },
        { kind: 'cholecystostomy', patients: '<5' },
        { kind: 'collection', patients: '<5' },
        { kind: 'pleural', patients: '<5' },
        { kind: 'bulb', patients: '<5' },
      ].map((row) => ({ ...row, days: 'withheld', silent_days: 'withheld' })),
      { kind: 'left out: consent withdrawn', patients: '<5', days: '', silent_days: '' },
    ])
    // One more kidney drain that goes on: the sum less the six that are told would be the days of that one.
    await write((tx) =>
      tx.patient.update({
        where: { id: all[6] ?? '' },
        data: { followUpEndedAt: null, followUpEnd: null },
      }),
    )
    expect((await totals()).find(({ kind }) => kind === 'nephrostomy')).toMatchObject({
      patients: '6',
      days: 'withheld',
      silent_days: 'withheld',
    })
  })

  it('leaves out who withdrew consent, in every file, and says how many', async () => {
    const all = await aPanel()
    const withdraw = (some: readonly string[]) =>
      write((tx) =>
        tx.patient.updateMany({
          where: { id: { in: [...some] } },
          data: { followUpEndedAt: iso(72), followUpEnd: 'consent-withdrawn' },
        }),
      )
    await withdraw(all.slice(0, 1))
    const leftOut = async () => (await totals()).at(-1)?.patients
    expect(await leftOut()).toBe('<5')
    await withdraw(all.slice(0, 6))
    expect(await leftOut()).toBe('6')
    for (const file of ['drains.csv', 'flags.csv', 'events.csv'])
      expect(new Set((await table(file)).map(({ study_id }) => study_id)).size).toBe(6)
    const counts = await table('counts.csv')
    const fever = counts.find((row) => row.kind === 'whole patient' && row.finding === 'infection-signs')
    expect(fever).toMatchObject({ patients: '6', flags: '6' })
    expect((await totals())[0]).toMatchObject({ patients: '6', days: '18' })
    await withdraw(all.slice(0, 8))
    await expect(take('drains.csv')).rejects.toThrow(/fewer than 5 patients/)
  })

  it('withholds a kind beside a finding of few, and one more, so that what is left over tells nothing', async () => {
    const all = await aPanel()
    // A leak of all six kidney drains, of four bile ducts and of the one lung: only the six may be told, and eleven would tell the five.
    for (const patientId of all.slice(0, 5)) await leak(patientId)
    const told = async () => {
      const leaks = (await table('flags.csv')).filter(({ finding }) => finding === 'leak')
      return leaks.map(({ kind }) => kind).toSorted()
    }
    for (const patientId of all.slice(6)) await leak(patientId)
    expect(await told()).toEqual([...Array(6).fill('nephrostomy'), ...Array(5).fill('withheld')])
    const cell = async (kind: string) =>
      (await table('counts.csv')).find((row) => row.kind === kind && row.finding === 'leak')
    expect(await cell('nephrostomy')).toMatchObject({ patients: '6', flags: '6' })
    // Without one of the bile ducts four are left over: then the six are withheld with them.
    await write((tx) => tx.flag.deleteMany({ where: { patientId: all[1] ?? '', code: 'leak' } }))
    expect(await told()).toEqual(Array(10).fill('withheld'))
    expect(await cell('nephrostomy')).toMatchObject({ patients: 'withheld', flags: 'withheld' })
    expect(await cell('biliary')).toMatchObject({ patients: '<5', flags: '<5' })
  })

  it('takes no call for one that a correction has replaced', async () => {
    const [patientId = ''] = await aPanel()
    const call = await read((tx) => tx.callback.findFirstOrThrow({ where: { patientId } }))
    await write((tx) =>
      tx.callback.create({
        data: { ...call, id: 'corrected', at: iso(23), outcome: 'no-answer', corrects: call.id },
      }),
    )
    const fevers = (await table('flags.csv')).filter(({ finding }) => finding === 'infection-signs')
    expect(fevers.map((one) => one.hours_to_attempt).toSorted()).toEqual([...Array(11).fill('1.5'), '3'])
  })

  it('makes the numbers of the patients anew with each file, in another order', async () => {
    await aPanel()
    const [one, two] = [await table('drains.csv'), await table('drains.csv')]
    const ids = new Set([...one, ...two].map(({ study_id }) => study_id))
    expect(ids.size).toBe(24)
    for (const id of ids) expect(id).toMatch(/^[b-z]{12}$/)
  })

  it('is written down in the access record, and refused of few patients', async () => {
    await aPanel()
    await take('flags.csv')
    expect(
      await read((tx) => tx.accessRecord.findMany({ where: { action: 'export-registry' } })),
    ).toMatchObject([
      { staffId: ada.id, patientId: null, what: expect.stringMatching(/^took flags\.csv .*: \d+ rows/) },
    ])
    await expect(take('drains.csv', elsewhere)).rejects.toThrow(/fewer than 5 patients/)
    await expect(take('patients.csv')).rejects.toMatchObject({ kind: 'invalid-input' })
  })

  it('has a dictionary of just its columns, here and in the documents', async () => {
    const rows = await table('dictionary.csv')
    for (const file of RegistryFile.exclude(['dictionary.csv']).options) {
      const columns = rows.filter((row) => row.file === file).map(({ column }) => column)
      expect(columns).toEqual(registryColumns[file].map(({ name }) => name))
    }
    await aPanel()
    for (const file of RegistryFile.exclude(['dictionary.csv']).options) {
      const [header] = (await take(file)).split('\r\n')
      expect(header).toBe(registryColumns[file].map(({ name }) => name).join(','))
    }
    const page = readFileSync(new URL('../../../docs/registry-export.md', import.meta.url), 'utf8')
    for (const [file, columns] of Object.entries(registryColumns)) {
      expect(page).toContain(`## ${file}`)
      for (const { name, meaning } of columns) expect(page).toContain(`| \`${name}\` | ${meaning}`)
    }
  })
})

describe('what may be named', () => {
  const named = (counts: Record<string, number>, already = 0) =>
    [...nameable(new Map(Object.entries(counts)), already)].toSorted()
  it('is what enough have, if what is withheld is not of few either', () => {
    expect(named({ a: 5, b: 9 })).toEqual(['a', 'b'])
    expect(named({ a: 4, b: 9, c: 12 })).toEqual(['c'])
    expect(named({ a: 3, b: 2, c: 12 })).toEqual(['c'])
    expect(named({ a: 5, b: 9 }, 2)).toEqual(['b'])
    expect(named({ a: 5, b: 9 }, 6)).toEqual(['a', 'b'])
    expect(named({ a: 1 })).toEqual([])
    expect(named({})).toEqual([])
  })
})

describe('an age', () => {
  const of = (birthDate: string) =>
    ageGroup({ id: 'x', birthDate, timeZone: 'America/Denver', firstAt: '2026-03-02T03:00:00Z' })
  it('is in tens of years by the patient’s own calendar, and one from 90 on', () => {
    // 1 March in Denver.
    expect(
      ['1936-03-01', '1936-03-02', '1900-01-01', '2026-01-01', '1996-03-02', '2027-01-01'].map(of),
    ).toEqual(['90 or over', '80-89', '90 or over', '0-9', '20-29', 'withheld'])
  })
})
