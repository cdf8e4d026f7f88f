import { beforeEach, describe, expect, it } from 'vitest'
import { auditFigures } from '../../../lib/audit/figures/index.ts'
import { type Figure, type FigureName, Figures } from '../../../lib/domain/figures.ts'
import { write } from '../../../lib/store/index.ts'
import { openClinics, patient } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import {
  answer,
  atHome,
  call,
  drawn,
  event,
  flag,
  heard,
  local,
  NOW,
  PERIOD,
  physician,
  removed,
  stay,
  turned,
} from './clinic.ts'

databasePerTest()
beforeEach(openClinics)

async function figure(name: FigureName): Promise<Figure> {
  const found = Figures.parse(await auditFigures(physician, PERIOD, NOW)).find((one) => one.name === name)
  if (!found) throw new Error(`no figure ${name}`)
  return found
}
const besides = ({ beside }: Figure) => Object.fromEntries(beside.map(({ label, text }) => [label, text]))
const people = (n: number) => Promise.all(Array.from({ length: n }, () => atHome()))

it('gives every figure of a clinic in which nothing has happened, and guesses none', async () => {
  const figures = Figures.parse(await auditFigures(physician, PERIOD, NOW))
  expect(figures.map(({ value }) => value)).toEqual(figures.map(() => null))
  for (const { why, method, doesNotSay } of figures) {
    expect(why).toBeTruthy()
    expect(method).toBeTruthy()
    expect(doesNotSay).toBeTruthy()
  }
})

describe('trust', () => {
  it('weighs verdicts by the chance of being drawn', async () => {
    const all = await people(8)
    // Four read for certain, all warranted; four drawn one in three, none warranted: 4 of 16 by weight, 4 of 8 by count.
    for (const [i, { patientId }] of all.entries()) {
      const flagId = await flag(patientId, local(3), { code: i < 4 ? 'drain-out' : 'leak' })
      const certain = i < 4
      await drawn(patientId, [certain ? (i === 0 ? 'warranted-late' : 'warranted') : 'not-warranted'], {
        flagId,
        stratum: certain ? 'within-1h' : 'rest',
        probability: certain ? 1 : 1 / 3,
      })
    }
    await drawn(all[0]?.patientId ?? '', ['cannot-tell'], {
      flagId: await flag(all[0]?.patientId ?? '', local(4)),
    })
    const ppv = await figure('predictive-value')
    expect(ppv).toMatchObject({ numerator: 4, denominator: 8, value: null, counted: 4 })
    expect(ppv.low).toBeLessThan(0.25)
    expect(ppv.high).toBeGreaterThan(0.25)
    expect(ppv.parts.map(({ key, numerator, denominator }) => [key, numerator, denominator])).toEqual([
      ['drain-out', 4, 4],
      ['leak', 0, 4],
    ])
    expect(besides(ppv)).toMatchObject({ 'Warranted, but late': '1', 'Cannot tell, not in it': '1' })
  })

  it('shows a share from five on, and the newest verdict of what was settled', async () => {
    const all = await people(11)
    const waits = all.pop()?.patientId ?? ''
    await drawn(waits, ['warranted', null], { flagId: await flag(waits, local(3)) })
    for (const [i, { patientId }] of all.entries()) {
      const flagId = await flag(patientId, local(3))
      const verdicts = i < 5 ? ['warranted'] : i < 8 ? ['not-warranted'] : ['warranted', 'not-warranted']
      await drawn(patientId, i === 9 ? [...verdicts, 'warranted'] : verdicts, { flagId })
    }
    const ppv = await figure('predictive-value')
    expect(ppv).toMatchObject({ numerator: 6, denominator: 9, value: 6 / 9 })
    expect(besides(ppv)['Second reading or settling awaited, not in it']).toBe('2')
    // Of nine independent items that is Wilson's interval of 6 of 9: R prop.test(6, 9, correct = FALSE), from memory.
    expect(ppv.low).toBeCloseTo(0.354, 2)
    expect(ppv.high).toBeCloseTo(0.879, 2)
    const agreed = await figure('agreement')
    expect(agreed).toMatchObject({ numerator: 0, denominator: 2, value: null })
  })

  it('shows no sensitivity without events, without days that were read, or without asking', async () => {
    const [one, two] = await people(2)
    expect((await figure('sensitivity')).why).toContain('no outside event')
    await event(one?.patientId ?? '', 'obstruction', local(10))
    expect((await figure('sensitivity')).why).toContain('no outside event') // known by chance, not by asking
    await answer(one?.patientId ?? '', 'events')
    expect((await figure('sensitivity')).why).toContain('no day without a flag')
    await drawn(two?.patientId ?? '', ['not-warranted'])
    expect((await figure('sensitivity')).why).toBe('Fewer than 5: the counts stand alone.')
    expect(await figure('missed-days')).toMatchObject({ numerator: 0, denominator: 1, value: null })
  })

  it('lets who was asked stand for who was not, flagged or not apart', async () => {
    const all = await people(12)
    // Six with a flag before their event, all asked. Six without, of whom two were asked: each stands for three.
    for (const [i, { patientId, drain }] of all.entries()) {
      if (i < 6) await flag(patientId, local(9), { code: 'output-stopped', drain })
      if (i < 8) await answer(patientId, 'events')
      if (i < 8) await event(patientId, 'obstruction', local(11), drain)
    }
    await answer(all[11]?.patientId ?? '', 'unknown')
    await drawn(all[8]?.patientId ?? '', ['not-warranted'])
    const found = await figure('sensitivity')
    expect(found).toMatchObject({ numerator: 6, denominator: 8, value: 0.5 })
    expect(besides(found)).toMatchObject({
      'Hours ahead, median': '48 h (6 found)',
      'Missed while not heard for over 48 h': '2',
      // Each was at risk on 28 days.
      'Patient-days of which it is known': '224 of 336',
    })
  })

  it('takes the answer after 30 days for those 30 days alone', async () => {
    const all = await people(6)
    for (const { patientId, drain } of all) {
      await flag(patientId, local(9), { code: 'output-stopped', drain })
      await event(patientId, 'obstruction', local(11), drain)
      await answer(patientId, 'events')
    }
    await drawn(all[0]?.patientId ?? '', ['not-warranted'])
    expect(await figure('sensitivity')).toMatchObject({ numerator: 6, denominator: 6, value: 1 })
    // As if all had been enrolled earlier: then the 30 days end on 10 March, and of what came later nobody was asked.
    await write((tx) => tx.patient.updateMany({ data: { enrolledAt: '2026-02-08T08:00:00.000Z' } }))
    for (const { patientId } of all) await answer(patientId, 'none')
    const asked = await figure('sensitivity')
    expect(asked).toMatchObject({ denominator: 0, why: expect.stringContaining('no outside event') })
    expect(besides(asked)).toMatchObject({
      'Events in a time that was not asked about, not in it': '6',
      'Patient-days of which it is known': '48 of 168',
    })
    // The question at the end is about all of the time.
    for (const { patientId } of all) await answer(patientId, 'events', 'end', local(30))
    expect(await figure('sensitivity')).toMatchObject({ numerator: 6, denominator: 6, value: 1 })
  })

  it('tells the value of clinical flags; upkeep by its finding alone', async () => {
    const all = await people(10)
    for (const [i, { patientId }] of all.entries()) {
      const nature = i < 6 ? 'clinical' : 'upkeep'
      const flagId = await flag(patientId, local(3), { nature, code: i < 6 ? 'leak' : 'log-missed' })
      await drawn(patientId, [i < 5 ? 'warranted' : 'not-warranted'], { flagId })
    }
    const ppv = await figure('predictive-value')
    expect(ppv).toMatchObject({ numerator: 5, denominator: 6, value: 5 / 6 })
    expect(besides(ppv)['Upkeep judged, by its finding alone']).toBe('4')
    expect(ppv.parts.map(({ key, numerator, denominator }) => [key, numerator, denominator])).toEqual([
      ['leak', 5, 6],
      ['log-missed', 0, 4],
    ])
  })

  it('tells no kappa of fewer than five', async () => {
    const all = await people(5)
    const read = async (some: typeof all) => {
      for (const { patientId } of some) await drawn(patientId, ['warranted', 'not-warranted'])
      return besides(await figure('agreement'))
    }
    expect(await read(all.slice(0, 4))).toEqual({})
    expect(Object.keys(await read(all.slice(4)))).toContain('Kappa')
  })
})

describe('at risk', () => {
  const days = async () => (await figure('flags-per-1000-days')).denominator
  // Four weeks of local days, one of them an hour short.
  const WHOLE = 28 - 1 / 24

  it('is nobody while follow-up had ended, though it went on later', async () => {
    const { patientId } = await atHome()
    expect(await days()).toBeCloseTo(WHOLE, 3)
    await turned(patientId, 'ended', local(10, '00:00'))
    await turned(patientId, 'resumed', local(20, '00:00'))
    expect(await days()).toBeCloseTo(WHOLE - 10, 3)
  })

  it('is nobody after death, told as an event, also of one before the period', async () => {
    const { patientId } = await atHome()
    await event(patientId, 'death', local(16, '00:00'))
    expect(await days()).toBeCloseTo(14 - 1 / 24, 3)
    await event(patientId, 'death', '2026-02-20T12:00:00.000Z')
    expect(await days()).toBe(0)
  })

  it('is nobody before the clinic knew: who is enrolled late has lived so long', async () => {
    const { patientId } = await patient(14 * 24, { placedAt: '2026-02-01T12:00:00.000Z' })
    await write((tx) =>
      tx.patient.update({ where: { id: patientId }, data: { enrolledAt: '2026-02-02T12:00:00.000Z' } }),
    )
    expect(await days()).toBeCloseTo(14 - 2 / 24, 3)
  })

  it('are those whose events count, in hospital too, not after the drain came out', async () => {
    const [inside, out] = [await atHome(), await atHome()]
    await stay(inside.patientId, local(10, '00:00'), local(20, '00:00'))
    await event(inside.patientId, 'infection', local(12), inside.drain)
    await removed(out.patientId, out.drain, local(10, '08:00'))
    await event(out.patientId, 'dislodgement', local(10, '12:00'), out.drain) // told by the day
    await event(out.patientId, 'admission', local(16))
    const found = await figure('events-per-1000-days')
    expect(found.numerator).toBe(2)
    expect(besides(found)['Events before or after that, in no figure']).toBe('1')
    expect(await figure('infection-rate')).toMatchObject({ numerator: 1 })
  })
})

describe('load', () => {
  it('counts flags over the days at home, without the hospital and after removal', async () => {
    const [stays, leaves] = [await atHome(), await atHome()]
    await removed(leaves.patientId, leaves.drain, local(16, '00:00'))
    await stay(stays.patientId, local(24, '00:00'), local(26, '00:00'))
    for (const day of [3, 4, 10, 11, 12, 17]) await flag(stays.patientId, local(day))
    await flag(leaves.patientId, local(5), { nature: 'upkeep', code: 'log-missed' })
    await heard(stays.patientId, local(3))
    await heard(stays.patientId, local(3, '23:30')) // the 4th in UTC, the same day in Denver
    await heard(stays.patientId, local(9, '00:30'))
    const rate = await figure('flags-per-1000-days')
    // 28 local days, one of them an hour short, less two in hospital; and 14, also with the short one.
    expect(rate.denominator).toBeCloseTo(26 + 14 - 2 / 24, 3)
    expect(rate).toMatchObject({ numerator: 6, counted: 1 })
    expect(rate.value).toBeCloseTo(6000 / rate.denominator, 4)
    expect(rate.weekly.map(({ numerator }) => numerator)).toEqual([2, 3, 1, 0])
    expect(rate.weekly[0]?.denominator).toBeCloseTo(2 * (7 - 1 / 24), 3)
    expect(besides(rate)['Days of silence']).toBe('38 of 40 patient-days (95%)')
    const adherence = await figure('log-adherence')
    expect(adherence).toMatchObject({ numerator: 2, denominator: 40 })
    expect(adherence.weekly.map(({ numerator }) => numerator)).toEqual([1, 1, 0, 0])
  })

  it('does not take six flags of one patient for those of six', async () => {
    const [often, ...others] = await people(12)
    for (const day of [3, 4, 5, 6, 10, 11]) await flag(often?.patientId ?? '', local(day))
    const one = await figure('flags-per-1000-days')
    for (const { patientId } of others.slice(0, 6)) await flag(patientId, local(12))
    const spread = await figure('flags-per-1000-days')
    const width = ({ low, high }: Figure) => Math.log((high ?? 0) / (low ?? 1))
    expect(width(one)).toBeGreaterThan(2 * width(spread))
  })

  it('draws limits from one event a week on, and says which week lies beyond them', async () => {
    const [one] = await people(12)
    for (const day of [3, 10, 17]) await flag(one?.patientId ?? '', local(day))
    const few = await figure('flags-per-1000-days')
    expect(few.chart).toEqual({ kind: 'u-chart', centre: null, signals: [] })
    expect(few.weekly.map(({ upper }) => upper)).toEqual([null, null, null, null])
    for (const hour of [10, 11, 12, 13, 14, 15, 16, 17])
      await flag(one?.patientId ?? '', local(24, `${hour}:00`))
    const more = await figure('flags-per-1000-days')
    expect(more.chart.signals).toEqual(['Week of 23 Mar: above the upper limit.'])
    expect(more.chart.centre).toBeCloseTo(11_000 / more.denominator, 3)
  })

  it('counts rows per day of a nurse, repeats, and what flutters', async () => {
    const [one, two] = await people(2)
    const [a, b] = [one?.patientId ?? '', two?.patientId ?? '']
    for (const hour of ['08:00', '12:00', '16:00'])
      await flag(a, local(3, hour), { endedAt: local(3, hour.replace(':00', ':30')) })
    await flag(b, local(3), { urgency: 'within-1h' })
    await flag(b, local(3), { code: 'drain-moved' }) // the same row
    await flag(b, local(10))
    await call(a, local(3, '09:00'))
    await call(b, local(3, '13:00'), 'no-answer')
    await call(b, local(10, '13:00'), 'reached', 'nurse-b')
    expect(await figure('openings-per-nurse-day')).toMatchObject({ numerator: 5, denominator: 2, value: 2.5 })
    const repeated = await figure('repeats-per-patient')
    expect(repeated).toMatchObject({ numerator: 5, denominator: 2, value: null })
    expect(besides(repeated)).toMatchObject({ 'Patients with three or more': '1 of 2' })
    expect(await figure('flutter-share')).toMatchObject({ numerator: 3, denominator: 6 })
    const pressing = await figure('pressing-share')
    expect(pressing.parts.map(({ key, numerator, denominator }) => [key, numerator, denominator])).toEqual([
      ['at-once', 0, 5],
      ['within-1h', 1, 5],
      ['within-24h', 4, 5],
      ['within-3d', 0, 5],
    ])
  })
})

describe('waiting', () => {
  it('lets who was not called wait on, and who is gone shut the call out', async () => {
    const all = await people(12)
    for (const [i, { patientId, drain }] of all.entries()) {
      await flag(patientId, local(10, '08:00'), { drain, urgency: 'within-1h' })
      if (i < 8) await call(patientId, local(10, `${String(9 + i).padStart(2, '0')}:00`)) // after 1 to 8 h
      if (i === 8) await removed(patientId, drain, local(10, '08:30'))
      if (i === 9) await event(patientId, 'death', local(10, '08:30'))
    }
    const wait = await figure('time-to-reached')
    expect(wait).toMatchObject({ numerator: 8, denominator: 12, unit: 'hours', counted: 8 })
    // Two leave at half an hour, so that ten wait when the first is called: half of them after 5 h.
    expect(wait.value).toBe(5)
    expect(wait.low).toBeLessThan(5)
    expect(besides(wait)).toMatchObject({
      'Drain out or died before it, within 72 h': expect.stringMatching(/^17%/),
    })
    expect(besides(wait)['Reached within 24 h']).toMatch(/^67%/)
    expect(wait.parts).toMatchObject([{ key: 'within-1h', value: 5 }])
  })

  it('counts as overdue what stood at its act-by with nobody reached', async () => {
    const all = await people(6)
    const [reached, late, tried, ended, once, ahead] = all.map(({ patientId }) => patientId)
    const opened = local(10, '08:00')
    const actBy = local(10, '09:00')
    for (const one of [reached, late, tried]) await flag(one ?? '', opened, { actBy, urgency: 'within-1h' })
    await flag(ended ?? '', opened, { actBy, endedAt: local(10, '08:40') })
    await flag(once ?? '', opened, { actBy: opened, urgency: 'at-once' })
    await flag(ahead ?? '', opened, { actBy: '2026-04-02T00:00:00.000Z' })
    await call(reached ?? '', local(10, '08:59'))
    await call(late ?? '', local(10, '09:01'))
    await call(tried ?? '', local(10, '08:30'), 'no-answer')
    expect(await figure('overdue-share')).toMatchObject({ numerator: 2, denominator: 4 })
    const attempt = await figure('time-to-attempt')
    expect(attempt).toMatchObject({ numerator: 3, denominator: 6 })
  })

  it('counts what was closed within a minute, of what a person closed', async () => {
    const [one] = await people(1)
    const id = one?.patientId ?? ''
    await flag(id, local(10, '08:00'), {
      closedAt: new Date(Date.parse(local(10, '08:00')) + 60_000).toISOString(),
    })
    await flag(id, local(11, '08:00'), {
      closedAt: new Date(Date.parse(local(11, '08:00')) + 61_000).toISOString(),
    })
    await flag(id, local(12, '08:00'), { endedAt: local(12, '08:01') })
    expect(await figure('closed-within-a-minute')).toMatchObject({ numerator: 1, denominator: 2 })
  })
})

describe('outcome', () => {
  it('counts a complication by the kind of its drain, beside what was published', async () => {
    const kidney = await atHome()
    const bile = await atHome({ kind: 'biliary', label: 'bile duct', side: undefined })
    await event(kidney.patientId, 'dislodgement', local(10), kidney.drain)
    await event(kidney.patientId, 'dislodgement', local(20)) // names none: the patient has one
    await event(bile.patientId, 'infection', local(12), bile.drain)
    await event(bile.patientId, 'dislodgement', local(12), bile.drain, '2026-04-02T00:00:00.000Z') // told later than now
    const found = await figure('dislodgement-rate')
    expect(found).toMatchObject({ numerator: 2, value: null, why: 'Fewer than 5: the counts stand alone.' })
    expect(found.parts.map(({ key, numerator }) => [key, numerator])).toEqual([
      ['nephrostomy', 2],
      ['biliary', 0],
    ])
    expect(found.parts[0]?.published.length).toBeGreaterThan(0)
    for (const { source } of found.parts[0]?.published ?? []) expect(source).toBeTruthy()
    // Two events over one patient's four weeks: by R poisson.test(2)$conf.int 0.242 to 7.22 (from memory), if it were not one patient.
    expect(found.low).toBeGreaterThan(0)
    expect(await figure('events-per-1000-days')).toMatchObject({ numerator: 3 })
  })
})
