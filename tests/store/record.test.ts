import { beforeEach, describe, expect, it } from 'vitest'
import { PatientRecord } from '../../lib/domain/record.ts'
import { Submission } from '../../lib/domain/submission.ts'
import { receiveReport } from '../../lib/intake/index.ts'
import type { ReportHead } from '../../lib/store/add-report.ts'
import { read, write } from '../../lib/store/index.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { withReport } from '../../lib/store/with-report.ts'
import { readPatientPage, readWorklist, recordStaffEvent } from '../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, wellReport } from './clinic.ts'
import { databasePerTest } from './database.ts'

databasePerTest()
beforeEach(openClinics)

const send = (patientId: string, hours: number, body: unknown) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: `k${hours}`, body },
    at(hours),
  )
const composed = async (patientId: string, hours: number) => {
  const found = await read((tx) => composeRecord(tx, patientId, at(hours)))
  if (!found) throw new Error('no such patient')
  return found
}

describe('a record', () => {
  it('is one that the rules take', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, { ...wellReport(drain, 24), flushes: [{ drain, at: iso(24), volumeMl: null }] })
    const { record, unreadable } = await composed(patientId, 25)
    expect(PatientRecord.safeParse(record).error).toBeUndefined()
    expect(unreadable).toEqual([])
  })

  it('leaves out what was received or recorded later than its instant', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, wellReport(drain, 24))
    await recordStaffEvent(nurse, patientId, { at: iso(1), drain, type: 'capped' }, 'e', at(30))
    expect((await composed(patientId, 23.9)).record.reports).toEqual([])
    const { record } = await composed(patientId, 29)
    expect([record.reports?.length, record.staffEvents]).toEqual([1, []])
    expect((await composed(patientId, 30)).record.staffEvents).toMatchObject([{ at: iso(1), type: 'capped' }])
  })

  it('has one query per kind of row, however many reports there are', async () => {
    const { patientId, drain } = await patient()
    for (let hours = 24; hours < 24 * 8; hours += 24) await send(patientId, hours, wellReport(drain, hours))
    let queries = 0
    await read((tx) =>
      composeRecord(
        new Proxy(tx, {
          get(target, name) {
            if (name === '$queryRaw') queries += 1
            return Reflect.get(target, name)
          },
        }),
        patientId,
        at(24 * 9),
      ),
    )
    expect(queries).toBe(11)
  })
})

describe('a record with the report that has just been stored', () => {
  it('is the record composed anew', async () => {
    const { patientId, drain } = await patient()
    const first = await send(patientId, 24, wellReport(drain, 24))
    const bodies = [
      { ...wellReport(drain, 48), supersedes: first.report, note: 'A slip of the pen.' },
      {
        readings: [
          { drain, at: '2026-03-04T09:30:00+02:00', volumeMl: null, total: true },
          { drain, at: iso(48), volumeMl: 12.5 },
        ],
      },
      { flushes: [{ drain, at: iso(48) }], dressings: [{ drain, at: iso(48), skin: 'red' }] },
      { symptoms: { at: iso(48), general: ['dizzy'], drains: [{ drain, leak: true }] } },
      { note: 'Only words.' },
    ]
    for (const [i, body] of bodies.entries()) {
      const before = await composed(patientId, 47.9 + i)
      const says = Submission.parse(body)
      const { report } = await send(patientId, 48 + i, body)
      const row = await read((tx) => tx.report.findUniqueOrThrow({ where: { id: report } }))
      const head = {
        ...row,
        door: 'check-in',
        reporter: 'patient',
        receipt: JSON.parse(row.receipt),
      } as ReportHead
      const anew = await composed(patientId, 48 + i)
      const added = withReport(before, head, says)
      expect(JSON.parse(JSON.stringify(added.record))).toEqual(JSON.parse(JSON.stringify(anew.record)))
      expect(added.reports).toEqual(anew.reports)
    }
  })
})

describe('one bad row', () => {
  it.each([
    ['Reading', 'volumeMl', 'plenty', 'reading'],
    ['Reading', 'appearance', 'mauve', 'reading'],
    ['Reading', 'at', 'yesterday', 'reading'],
    ['Symptoms', 'general', '{broken', 'symptoms'],
    ['DrainSymptoms', 'position', 'sideways', 'symptoms of a drain'],
    ['DressingChange', 'skin', 'blue', 'dressing change'],
    ['Report', 'reporter', 'nobody', 'report'],
  ])('of %s (%s) is named on the worklist and hides no other', async (table, column, value, what) => {
    const { patientId, drain } = await patient()
    await send(patientId, 24, wellReport(drain, 24))
    await send(patientId, 48, { symptoms: { at: iso(48), drains: [{ drain, leak: true }] } })
    await write((tx) =>
      tx.$executeRawUnsafe(
        `UPDATE "${table}" SET "${column}" = '${value}' WHERE rowid = (SELECT MIN(rowid) FROM "${table}")`,
      ),
    )
    await send(patientId, 49, wellReport(drain, 49))
    const worklist = await readWorklist(nurse, at(49))
    expect(worklist.unreadable).toMatchObject([{ what, why: expect.stringContaining(column) }])
    expect(worklist.rows).toMatchObject([
      { patientId, flags: expect.arrayContaining([expect.objectContaining({ code: 'leak' })]) },
    ])
    expect((await readPatientPage(nurse, patientId, at(50))).record.reports?.length).toBe(
      table === 'Report' ? 2 : 3,
    )
  })

  it('of a flag or a patient leaves the others on the worklist', async () => {
    const leak = (drain: string) => ({ symptoms: { at: iso(1), drains: [{ drain, leak: true }] } })
    const [one, two, three] = [await patient(), await patient(), await patient()]
    for (const { patientId, drain } of [one, two, three]) await send(patientId, 1, leak(drain))
    await write(
      (tx) =>
        tx.$executeRaw`UPDATE "Flag" SET "state" = 'open', "urgency" = 'soonish' WHERE "patientId" = ${one.patientId}`,
    )
    await write(
      (tx) => tx.$executeRaw`UPDATE "Patient" SET "timeZone" = 'Nowhere' WHERE "id" = ${two.patientId}`,
    )
    const worklist = await readWorklist(nurse, at(2))
    expect(worklist.rows.filter(({ flags }) => flags.length > 0)).toMatchObject([
      { patientId: three.patientId },
    ])
    expect(worklist.unreadable.map(({ what, why }) => `${what}: ${why.slice(0, 8)}`).sort()).toEqual([
      'flag: urgency:',
      'patient: timeZone',
    ])
    expect(worklist.patients).toBe(3)
  })
})
