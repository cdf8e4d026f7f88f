import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { beforeEach, describe, expect, it } from 'vitest'
import { exportRegistry } from '../../../lib/audit/registry/index.ts'
import { ageGroup } from '../../../lib/audit/registry/mask.ts'
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

/** Six patients with a fever each, one of them very old and one with a rare drain; calls and events with words. */
async function aPanel() {
  const all = []
  for (let i = 0; i < 6; i++) {
    const given = enrolment(
      { birthDate: i === 0 ? '1930-01-15' : '1960-05-17', name: `Zelda Quillfeather-${i} (invented)` },
      i === 1 ? { kind: 'pleural', label: 'secret lung place' } : { label: 'secret kidney place' },
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
          ...{ kind: i === 0 ? 'death' : 'emergency-visit', at: iso(60), note: 'Secret outside note' },
          ...{ recordedAt: iso(70), recordedBy: nurse.id },
        },
      }),
    )
    all.push(patientId)
  }
  return all
}

const take = async (file: string, who = ada) => (await exportRegistry(who, file, at(100))).text
const table = async (file: string): Promise<Record<string, string>[]> =>
  parse(await take(file), { columns: true, record_delimiter: '\r\n' })

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

  it('tells days since placement, and withholds what few have', async () => {
    await aPanel()
    const drains = await table('drains.csv')
    expect(drains).toHaveLength(6)
    // Placed 30 days before enrolment; followed for 100 h since enrolment.
    expect(drains.map(({ days_followed, ended, readings }) => [days_followed, ended, readings])).toEqual(
      drains.map(() => ['4', 'followed', '1']),
    )
    expect(drains.map(({ kind }) => kind).sort()).toEqual([...Array(5).fill('nephrostomy'), 'withheld'])
    expect(drains.map(({ age_group }) => age_group).sort()).toEqual([...Array(5).fill('60-69'), 'withheld'])
    const fevers = (await table('flags.csv')).filter(({ finding }) => finding === 'infection-signs')
    expect(fevers).toHaveLength(6)
    for (const fever of fevers)
      expect(fever).toMatchObject({ day: '30', hours_to_attempt: '1.5', hours_to_reached: '', state: 'open' })
    const events = await table('events.csv')
    expect(events.map(({ event, day }) => [event, day]).sort()).toEqual([
      ...Array(5).fill(['emergency-visit', '32']),
      ['withheld', '32'],
    ])
  })

  it('counts nothing under five, also not nothing', async () => {
    await aPanel()
    const counts = await table('counts.csv')
    const of = (kind: string, finding: string) =>
      counts.find((row) => row.kind === kind && row.finding === finding)
    expect(of('whole patient', 'infection-signs')).toMatchObject({ patients: '6', flags: '6' })
    expect(of('pleural', 'leak')).toMatchObject({ patients: '<5', flags: '<5' })
    for (const { patients, flags } of counts)
      for (const value of [patients, flags]) expect(value === '<5' || Number(value) >= 5).toBe(true)
  })

  it('makes the numbers of the patients anew with each file, in another order', async () => {
    await aPanel()
    const [one, two] = [await table('drains.csv'), await table('drains.csv')]
    const ids = new Set([...one, ...two].map(({ study_id }) => study_id))
    expect(ids.size).toBe(12)
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
