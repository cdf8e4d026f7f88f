import { beforeEach, describe, expect, it } from 'vitest'
import { recordOutsideEvent } from '../../../lib/audit/outcomes/index.ts'
import { drawWeek, openItem, readItem, readWeek, readWeeks } from '../../../lib/audit/week/index.ts'
import { WeekPage } from '../../../lib/domain/week-page.ts'
import { endFollowUp } from '../../../lib/intake/index.ts'
import { read } from '../../../lib/store/index.ts'
import { readWorklist, recordCallback, recordStaffEvent, sweep } from '../../../lib/worklist/index.ts'
import { at, iso, nurse, openClinics, patient, stranger } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import {
  hire,
  judge,
  key,
  OVER,
  pia,
  refusal,
  send,
  shiveringPatient,
  tom,
  WEEK,
  wellPatient,
} from './place.ts'

databasePerTest()
beforeEach(async () => {
  await openClinics()
  await hire(pia, tom)
})

const items = () => read((tx) => tx.reviewItem.findMany({ orderBy: { ordinal: 'asc' } }))
const open = (hours = OVER, staff = pia) => readWeek(staff, WEEK, at(hours))

describe('drawing a week', () => {
  it('takes its flags, and the days without one of whoever was followed through them', async () => {
    const well = await wellPatient()
    const ill = await shiveringPatient()
    await drawWeek(pia, WEEK, at(OVER))
    const drawn = await items()
    const flags = drawn.filter(({ kind }) => kind === 'flag')
    expect(flags.filter(({ stratum }) => stratum === 'within-1h')).toMatchObject([
      { patientId: ill.patientId, at: iso(59), probability: 1 },
    ])
    const days = drawn.filter(({ kind }) => kind === 'day')
    expect(days.every(({ flagId, drainId }) => flagId === null && drainId === null)).toBe(true)
    // The well one on all seven days; the other on none from Wednesday on, where a flag stood.
    const dates = (id: string) =>
      days
        .filter(({ patientId }) => patientId === id)
        .map((day) => day.at.slice(0, 10))
        .toSorted()
    expect(dates(well.patientId)).toHaveLength(7)
    expect(dates(ill.patientId).every((date) => date < '2026-03-04')).toBe(true)
    for (const day of days.filter(({ stratum }) => stratum === 'day-heard'))
      expect(
        await read((tx) => tx.report.count({ where: { patientId: day.patientId, receivedAt: day.at } })),
      ).toBe(1)
  })

  it('draws a silent day as one, and none while follow-up had ended or the patient was in hospital', async () => {
    const quiet = await patient(-72, { plan: { logEveryHours: 720, dressingEveryHours: 720, flush: null } })
    const gone = await patient(-72, { plan: { logEveryHours: 720, dressingEveryHours: 720, flush: null } })
    await recordStaffEvent(
      nurse,
      gone.patientId,
      { at: iso(-1), drain: gone.drain, type: 'removed' },
      key(),
      at(-1),
    )
    await endFollowUp(nurse, gone.patientId, { reason: 'removed' }, key(), at(-1))
    await sweep(at(OVER))
    await drawWeek(pia, WEEK, at(OVER))
    const drawn = await items()
    expect(new Set(drawn.map(({ patientId }) => patientId))).toEqual(new Set([quiet.patientId]))
    expect(new Set(drawn.map(({ stratum }) => stratum))).toEqual(new Set(['day-silent']))
    for (const { at: instant } of drawn) {
      expect(Date.parse(instant)).toBeGreaterThanOrEqual(Date.parse('2026-03-02T07:00:00Z'))
      expect(Date.parse(instant)).toBeLessThan(Date.parse('2026-03-09T06:00:00Z'))
    }
  })

  it('happens once, by whoever opens it first, also when two do at once', async () => {
    await wellPatient()
    await shiveringPatient()
    const [a, b] = await Promise.all([open(OVER, pia), open(OVER, tom)])
    expect(b.items.map(({ id }) => id)).toEqual(a.items.map(({ id }) => id))
    expect(await drawWeek(tom, WEEK, at(OVER + 40))).toEqual({ items: a.items.length })
    expect((await items()).length).toBe(a.items.length)
    expect(['Pia Invented', 'Tom Invented']).toContain(a.drawnBy)
  })

  it('is refused for a week that is not over or is none', async () => {
    // The zone goes over to summer time in that week, which is an hour shorter.
    expect((await refusal(drawWeek(pia, WEEK, at(OVER - 2.01)))).detail).toMatch(/is not over/)
    expect(await drawWeek(pia, WEEK, at(OVER - 2))).toEqual({ items: 0 })
    expect((await refusal(drawWeek(pia, '2026-03-03', at(OVER)))).faults[0]).toMatchObject({
      field: 'week',
      value: '2026-03-03',
    })
    expect((await refusal(drawWeek(pia, 'soon', at(OVER)))).kind).toBe('invalid-input')
  })

  it('says how many were drawn of how many, and in which weeks something waits', async () => {
    await wellPatient()
    await shiveringPatient()
    const before = await readWeeks(pia, at(OVER))
    expect(before.weeks.map(({ week }) => week)).toEqual(['2026-03-02', '2026-02-23'])
    expect(before.weeks[0]).toMatchObject({ isDrawn: false, items: 0, mine: 0 })
    const page = WeekPage.parse(await open())
    expect(page.shares.find(({ stratum }) => stratum === 'within-1h')).toEqual({
      stratum: 'within-1h',
      drawn: 1,
      of: 1,
    })
    const [line] = (await readWeeks(pia, at(OVER))).weeks
    expect(line).toMatchObject({ isDrawn: true, items: page.items.length, read: 0, mine: page.items.length })
    expect(page.readers).toBe(2)
  })

  it('is another clinic’s own', async () => {
    await shiveringPatient()
    const [item] = (await open()).items
    const foreign = { ...stranger, role: 'physician' as const }
    expect((await readWeek(foreign, WEEK, at(OVER))).items).toEqual([])
    expect((await refusal(readItem(foreign, item?.id ?? '', at(OVER)))).kind).toBe('not-found')
    expect((await refusal(judge(foreign, item?.id ?? '', 1, 'warranted', OVER))).kind).toBe('not-found')
    expect((await refusal(openItem(foreign, item?.id ?? '', key(), at(OVER)))).kind).toBe('not-found')
  })
})

/** Every word that would tell a flag from a day, or what a rule or a nurse made of it. */
const TELLING =
  /flag|stratum|probability|urgency|at-once|within|day-(heard|silent)|"kind":"(flag|day)"|finding|infection-signs|callback|Reached|No answer|phone-in|look again/i

describe('the blind reading', () => {
  it('tells neither in the list nor in the item which sort it is', async () => {
    await wellPatient()
    const ill = await shiveringPatient()
    const [flag] = (await readWorklist(nurse, at(60))).rows.flatMap((row) => row.flags)
    await recordCallback(
      nurse,
      ill.patientId,
      {
        outcome: 'reached',
        spokenTo: 'patient',
        agreed: ['emergency-department'],
        closes: [flag?.id],
        lookAgainAt: iso(80),
        note: 'Reached her; she goes in.',
      },
      key(),
      at(60),
    )
    await recordOutsideEvent(
      nurse,
      ill.patientId,
      { kind: 'infection', at: iso(65), note: 'sent in after our flag' },
      key(),
      at(100),
    )
    const page = await open(OVER * 2)
    // What the sample consists of is stated as a whole, not by item.
    expect(JSON.stringify(page.items)).not.toMatch(TELLING)

    const kinds = new Map((await items()).map(({ id, kind }) => [id, kind]))
    const told = new Map<string, unknown>()
    for (const { id } of page.items) {
      const item = await readItem(pia, id, at(OVER * 2))
      expect(JSON.stringify(item)).not.toMatch(TELLING)
      told.set(kinds.get(id) ?? '', shapeOf(item))
    }
    expect(told.size).toBe(2)
    expect(told.get('flag')).toEqual(told.get('day'))
  })

  it('shows the record as it was known then, and apart what became known in the days after', async () => {
    const ill = await shiveringPatient()
    await send(ill.patientId, 62, {
      readings: [{ drain: ill.drain, at: iso(54), volumeMl: 77, appearance: 'pink' }],
    })
    await recordOutsideEvent(nurse, ill.patientId, { kind: 'infection', at: iso(100) }, key(), at(600))
    await open()
    const item = (await items()).find((one) => one.stratum === 'within-1h' && one.at === iso(59))?.id ?? ''
    const page = await readItem(pia, item, at(700))
    const said = (told: typeof page.known) => told.reports.flatMap(({ lines }) => lines).join(' ')
    expect(said(page.known)).toMatch(/chills/)
    expect(page.known.reports.at(-1)?.words).toBe('I am cold and shake (invented).')
    expect(said(page.known)).not.toMatch(/77 mL/)
    expect(said(page.after)).toMatch(/77 mL/)
    expect(page.known.events.map(({ says }) => says)).toEqual([])
    expect(page.after.events.map(({ says }) => says)).toEqual(['Outside: infection proven'])
    expect(page.afterIsWhole).toBe(true)
    expect((await readItem(pia, item, at(OVER))).afterIsWhole).toBe(false)
    expect(page.known.days[0]?.days).toHaveLength(14)
  })

  it('opens what happened only after an own verdict', async () => {
    await shiveringPatient()
    await open()
    const item = (await items()).find((one) => one.stratum === 'within-1h' && one.at === iso(59))?.id ?? ''
    expect((await refusal(openItem(pia, item, key(), at(OVER)))).detail).toMatch(/after your own verdict/)
    await judge(pia, item, 1, 'warranted', OVER)
    const happened = await openItem(pia, item, key(), at(OVER))
    expect(happened.flag).toMatchObject({
      name: 'Signs of infection',
      openedAt: iso(59),
      urgency: 'Within 1 hour',
    })
    expect((await refusal(openItem(tom, item, key(), at(OVER)))).kind).toBe('conflict')
  })
})

/** The fields of a value, down to its leaves, with lists as what one of their entries may hold. */
function shapeOf(value: unknown): unknown {
  if (value === null || typeof value !== 'object') return 'value'
  if (Array.isArray(value)) return 'list'
  return Object.fromEntries(Object.entries(value).map(([name, field]) => [name, shapeOf(field)]))
}
