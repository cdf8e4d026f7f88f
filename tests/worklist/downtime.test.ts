import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { pagesOf } from '../../e2e/support/pdf.ts'
import { receiveReport } from '../../lib/intake/index.ts'
import { read, write } from '../../lib/store/index.ts'
import { writeDowntime } from '../../lib/worklist/downtime.ts'
import { downtimeNotes } from '../../lib/worklist/downtime-notes.ts'
import { startDowntime } from '../../lib/worklist/downtime-timer.ts'
import { at, CLINIC, iso, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

const place = databasePerTest()
beforeEach(openClinics)

const folder = () => path.join(place.folder, 'lists')
const files = () => readdirSync(folder()).toSorted()

async function chills() {
  const { patientId, drain } = await patient(1)
  const body = {
    readings: [{ drain, at: iso(2), volumeMl: 380, appearance: 'clear' }],
    symptoms: { at: iso(2), temperatureC: 36.9, chills: true, pain: 0, general: [], drains: [] },
  }
  await receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: 's', by: null, key: 'k', body },
    at(2),
  )
  return read((tx) => tx.patient.findUniqueOrThrow({ where: { id: patientId } }))
}

describe('the list for a downtime', () => {
  it('is one page and one PDF per clinic and hour, for its owner alone', async () => {
    const { name, recordNumber } = await chills()
    expect(await writeDowntime(folder(), 'A4', at(2.5))).toEqual([])
    expect(files()).toEqual([
      'worklist_elsewhere-clinic-invented_clinic-e_2026-03-02_03.html',
      'worklist_elsewhere-clinic-invented_clinic-e_2026-03-02_03.pdf',
      'worklist_larkfield-clinic-invented_clinic-l_2026-03-02_03.html',
      'worklist_larkfield-clinic-invented_clinic-l_2026-03-02_03.pdf',
    ])
    for (const file of files()) expect(statSync(path.join(folder(), file)).mode & 0o777).toBe(0o600)
    const page = readFileSync(path.join(folder(), files()[2] ?? ''), 'utf8')
    const [paper] = await pagesOf(readFileSync(path.join(folder(), files()[3] ?? '')))
    for (const text of [page, paper?.text ?? '']) {
      expect(text).toContain('Mon 2 Mar, 03:30')
      expect(text).toContain(name)
      expect(text).toContain(`17 May 1960 · ${recordNumber} · no number noted`)
      expect(text).toContain('Within 1 hour, by 04:00')
      expect(text).toMatch(/[Cc]hills/)
      expect(text).toContain('Decision support, not a diagnosis.')
    }
    expect(page).not.toMatch(/<script|src=|href=/)
    const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'write-downtime-list' } }))
    expect(seen).toHaveLength(2)
  })

  it('keeps 48 hours, and clears away what a killed process left', async () => {
    mkdirSync(folder())
    const begins = 'worklist_larkfield-clinic-invented_clinic-l_'
    for (let day = 1; day <= 4; day++)
      for (let hour = 0; hour < 24; hour++)
        writeFileSync(
          path.join(folder(), `${begins}2026-02-0${day}_${String(hour).padStart(2, '0')}.html`),
          '',
        )
    writeFileSync(path.join(folder(), `${begins}2026-02-04_23.html.x.unfinished`), '')
    writeFileSync(path.join(folder(), 'somebody-elses.txt'), 'kept')
    expect(await writeDowntime(folder(), 'LETTER', at(2))).toEqual([])
    const own = files().filter((name) => name.startsWith(begins) && name.endsWith('.html'))
    expect(own).toHaveLength(48)
    expect(own[0]).toBe(`${begins}2026-02-03_01.html`)
    expect(files().some((name) => name.endsWith('.unfinished'))).toBe(false)
    expect(files()).toContain('somebody-elses.txt')
  })

  it('escapes what people are called', async () => {
    await chills()
    await write((tx) => tx.patient.updateMany({ data: { name: '<b onload="x">Ada' } }))
    await writeDowntime(folder(), 'A4', at(2.5))
    const page = readFileSync(path.join(folder(), files()[2] ?? ''), 'utf8')
    expect(page).toContain('&lt;b onload=&quot;x&quot;&gt;Ada')
  })
})

describe('the hourly writing', () => {
  let stop = () => {}
  afterEach(() => stop())

  it('says since when it fails, and falls silent once it works again', async () => {
    writeFileSync(folder(), 'a file where the folder should be')
    const faults: unknown[] = []
    stop = startDowntime({ folder: folder(), size: 'A4' }, (fault) => faults.push(fault))
    await vi.waitFor(() => expect(faults).toHaveLength(1), { timeout: 20_000 })
    expect(downtimeNotes(CLINIC, 'America/Denver')[0]).toMatch(
      /^The list for a downtime cannot be written to its folder since \d\d:\d\d \(E\w+\): print this page/,
    )
    stop()
    stop = startDowntime({ folder: path.join(place.folder, 'other'), size: 'A4' }, (fault) =>
      faults.push(fault),
    )
    await vi.waitFor(() => expect(readdirSync(path.join(place.folder, 'other'))).toHaveLength(4), {
      timeout: 20_000,
    })
    expect(downtimeNotes(CLINIC, 'America/Denver')).toEqual([])
    expect(faults).toHaveLength(1)
  })

  it('writes nothing unless somebody has said where to', () => {
    stop = startDowntime({ folder: null, size: 'A4' }, () => expect.unreachable())
    expect(downtimeNotes(CLINIC, 'America/Denver')).toEqual([])
  })
})
