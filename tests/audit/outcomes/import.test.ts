import { beforeEach, describe, expect, it } from 'vitest'
import { recordOutsideEvent } from '../../../lib/audit/outcomes/index.ts'
import { importOutsideEvents } from '../../../lib/intake/import-outside-events.ts'
import { read } from '../../../lib/store/index.ts'
import { at, iso, nurse, openClinics, patient, stranger } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'

databasePerTest()
let id = ''
let number = ''
beforeEach(async () => {
  await openClinics()
  id = (await patient(0)).patientId
  number = (await read((tx) => tx.patient.findUniqueOrThrow({ where: { id } }))).recordNumber
})

const HEADER = 'record_number,kind,at,drain,note'
const take = (lines: string[], dryRun = false, by = nurse) =>
  importOutsideEvents(
    by,
    { name: 'events.csv', bytes: new TextEncoder().encode(lines.join('\n')), dryRun },
    at(200),
  )
const count = () => read((tx) => tx.outsideEvent.count())

describe('a file of outside events', () => {
  it('is looked at, taken in whole, and adds nothing a second time', async () => {
    const lines = [
      HEADER,
      `${number},Emergency-Visit,2026-03-04 08:05,left kidney,"blocked, flushed"`,
      `${number},infection,2026-03-05T10:00:00Z,,`,
      `${number},infection,2026-03-05T10:00:00Z,,said twice`,
    ]
    expect(await take(lines, true)).toMatchObject({
      dryRun: true,
      events: 2,
      patients: 1,
      repeated: 1,
      faults: [],
    })
    expect(await count()).toBe(0)
    expect(await take(lines)).toMatchObject({ lines: 3, events: 2, patients: 1, repeated: 1, takenAt: null })
    // 08:05 in Denver, where the patient lives.
    expect(await read((tx) => tx.outsideEvent.findMany({ orderBy: { at: 'asc' } }))).toMatchObject([
      { kind: 'emergency-visit', at: '2026-03-04T15:05:00.000Z', note: 'blocked, flushed' },
      { kind: 'infection', at: '2026-03-05T10:00:00.000Z', drainId: null },
    ])
    expect(await take(lines)).toMatchObject({ events: 0, takenAt: iso(200) })
    // The same events in another file are known, too; so is one that staff told.
    await recordOutsideEvent(nurse, id, { kind: 'leak', at: '2026-03-06T10:00:00Z' }, 'k', at(200))
    const more = [HEADER, `${number},infection,2026-03-05 03:00,,`, `${number},leak,2026-03-06T10:00:00Z,,`]
    expect(await take(more)).toMatchObject({ events: 0, repeated: 2, takenAt: null })
    expect(await count()).toBe(3)
  })

  it('says every fault by line, with what is accepted, and stores nothing', async () => {
    const outcome = await take([
      HEADER,
      `${number},leak,2026-03-04 08:05,,`,
      'XX-1,leak,2026-03-04 08:05,,',
      `${number},surgery,2026-03-04 08:05,,`,
      `${number},leak,2026-02-20 08:05,,`,
      `${number},leak,2027-02-20 08:05,,`,
      `${number},leak,03/04/2026,right kidney,`,
      ',,,,x',
    ])
    expect(outcome.events).toBe(0)
    expect(await count()).toBe(0)
    const said = outcome.faults.map(({ line, column, message }) => `${line} ${column}: ${message}`)
    expect(said).toEqual([
      '3 record_number: names no patient of this clinic; accepted: a record number',
      expect.stringMatching(/^4 kind: accepted: emergency-visit, admission,/),
      `5 at: is before enrolment; accepted: ${iso(0)} or later`,
      '6 at: is later than now; accepted: a time that has passed',
      expect.stringMatching(/^7 drain: names no drain of this patient; accepted: 1 \(left kidney\)/),
      expect.stringMatching(/^7 at: is a date as spreadsheet programs show it/),
      '8 record_number: is missing; accepted: a record number of this clinic',
      expect.stringMatching(/^8 kind: is missing; accepted:/),
      '8 at: is missing; accepted: 2026-03-02 08:05',
    ])
  })

  it('knows no other clinic’s patients', async () => {
    const { faults } = await take([HEADER, `${number},leak,2026-03-04 08:05,,`], true, stranger)
    expect(faults).toMatchObject([{ line: 2, column: 'record_number', value: number }])
  })

  it('has a known header', async () => {
    expect((await take(['record_number,what', 'x,y'])).faults.map(({ column }) => column)).toEqual([
      'what',
      'kind',
      'at',
    ])
  })
})
