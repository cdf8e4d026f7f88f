import { beforeEach, describe, expect, it } from 'vitest'
import { namePrimary, primaryWithin, readBehind, readFigures } from '../../../lib/audit/figures/index.ts'
import { FiguresPage, PatientsBehind } from '../../../lib/domain/figures.ts'
import { read } from '../../../lib/store/index.ts'
import { CLINIC, openClinics } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { accessRecord, atHome, flag, local, NOW, PERIOD, physician } from './clinic.ts'

databasePerTest()
beforeEach(openClinics)

const period = { ...PERIOD, weeks: null }
const elsewhere = { ...physician, id: 'stranger', clinicId: 'clinic-elsewhere' }

describe('the page of the figures', () => {
  it('holds each figure with the number of its patients, and names none of them', async () => {
    const { patientId } = await atHome()
    await flag(patientId, local(3))
    const page = FiguresPage.parse(await readFigures(physician, period, NOW))
    expect(page).toMatchObject({ ...PERIOD, primary: null, next: null, unreadable: 0 })
    expect(page.figures.find(({ name }) => name === 'flags-per-1000-days')).toMatchObject({
      patients: 1,
      numerator: 1,
    })
    expect(JSON.stringify(page)).not.toContain(patientId)
  })

  it('counts whole weeks back from now where no days are named', async () => {
    const none = { from: null, until: null, weeks: null }
    expect(await readFigures(physician, none, NOW)).toMatchObject({ from: '2026-02-02', until: '2026-03-30' })
    expect(await readFigures(physician, { ...none, weeks: '4' }, NOW)).toMatchObject({ from: '2026-03-02' })
  })

  it.each([
    [{ ...period, from: '2026-13-01' }, 'from'],
    [{ ...period, until: '2026-03-02' }, 'until'],
    [{ ...period, until: '2027-03-02' }, 'until'],
    [{ from: null, until: null, weeks: '27' }, 'weeks'],
    [{ from: null, until: null, weeks: 'many' }, 'weeks'],
  ])('refuses %j', async (asked, field) => {
    await expect(readFigures(physician, asked, NOW)).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
  })

  it('shows a row that cannot be read as one, and leaves it out', async () => {
    const { patientId } = await atHome()
    await flag(patientId, local(3))
    await flag(patientId, local(4), { code: 'no-such-finding' })
    const page = await readFigures(physician, period, NOW)
    expect(page.unreadable).toBe(1)
    expect(page.figures.find(({ name }) => name === 'flags-per-1000-days')?.numerator).toBe(1)
  })
})

describe('the patients behind a figure', () => {
  const asked = { ...period, figure: 'flags-per-1000-days', part: null }

  it('are those in the numerator first, and are entered as seen', async () => {
    const [quiet, flagged] = [await atHome(), await atHome()]
    await flag(flagged.patientId, local(3), { code: 'drain-out' })
    const page = PatientsBehind.parse(await readBehind(physician, asked, NOW))
    expect(page.patients.map(({ patientId, isCounted }) => [patientId, isCounted])).toEqual([
      [flagged.patientId, true],
      [quiet.patientId, false],
    ])
    const entry = (await accessRecord()).at(-1)
    expect(entry).toMatchObject({ action: 'view-figure', staffId: physician.id })
    expect(entry?.what).toContain(flagged.patientId)
    expect(entry?.what).toContain(quiet.patientId)
  })

  it('can be those of one part', async () => {
    const [one, other] = [await atHome(), await atHome()]
    await flag(one.patientId, local(3), { code: 'drain-out' })
    await flag(other.patientId, local(3), { code: 'leak' })
    const page = await readBehind(physician, { ...asked, figure: 'pressing-share', part: 'within-24h' }, NOW)
    expect(page.all).toBe(2)
    const out = await readBehind(physician, { ...asked, part: 'drain-out' }, NOW)
    expect(out.patients.filter(({ isCounted }) => isCounted).map(({ patientId }) => patientId)).toEqual([
      one.patientId,
    ])
  })

  it('are never another clinic’s, and a figure that is none is refused', async () => {
    const { patientId } = await atHome()
    await flag(patientId, local(3))
    expect((await readBehind(elsewhere, asked, NOW)).patients).toEqual([])
    await expect(readBehind(physician, { ...asked, figure: 'luck' }, NOW)).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field: 'figure' }],
    })
  })
})

describe('the figure that a clinic is judged by', () => {
  const body = { figure: 'predictive-value', why: 'Nurses doubt the flags.' }
  const week = (monday: string, now: Date) => read((tx) => primaryWithin(tx, CLINIC, monday, now))

  it('holds for the weeks that begin after it was named', async () => {
    const named = new Date('2026-03-11T18:00:00.000Z') // a Wednesday
    expect(await namePrimary(physician, body, 'k1', named)).toEqual({ from: '2026-03-16' })
    expect(await namePrimary(physician, body, 'k1', NOW)).toEqual({ from: '2026-03-16' }) // a repeat
    expect(await week('2026-03-09', NOW)).toMatchObject({
      primary: null,
      next: { figure: 'predictive-value', from: '2026-03-16' },
    })
    expect(await week('2026-03-16', NOW)).toMatchObject({
      primary: { figure: 'predictive-value', why: body.why },
      next: null,
    })
    // Another later: the weeks until then keep the first.
    await namePrimary(
      physician,
      { ...body, figure: 'overdue-share' },
      'k2',
      new Date('2026-03-24T18:00:00.000Z'),
    )
    expect(await week('2026-03-23', NOW)).toMatchObject({
      primary: { figure: 'predictive-value' },
      next: { figure: 'overdue-share', from: '2026-03-30' },
    })
    expect((await accessRecord()).filter(({ action }) => action === 'name-primary-figure')).toHaveLength(2)
  })

  it.each([
    [{ ...body, figure: 'luck' }, 'figure'],
    [{ ...body, why: ' ' }, 'why'],
  ])('refuses %j', async (wrong, field) => {
    await expect(namePrimary(physician, wrong, 'k', NOW)).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
  })
})
