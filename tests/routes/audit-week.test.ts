import { beforeEach, describe, expect, it } from 'vitest'
import { POST as openItem } from '../../app/api/audit/reviews/[item]/opened/route.ts'
import { GET as readItem } from '../../app/api/audit/reviews/[item]/route.ts'
import { POST as review } from '../../app/api/audit/reviews/route.ts'
import { GET as readWeek } from '../../app/api/audit/weeks/[week]/route.ts'
import { POST as signIn } from '../../app/api/auth/[...all]/route.ts'
import { now } from '../../lib/clock.ts'
import { lastEndedWeek, WeekPage } from '../../lib/domain/week-page.ts'
import { enrol, receiveReport } from '../../lib/intake/index.ts'
import { read, write } from '../../lib/store/index.ts'
import { ask, cookieOf, HERE, member, PASSWORD, usePlace } from '../access/place.ts'
import { enrolment } from '../store/clinic.ts'

usePlace()

const ZONE = 'America/Denver'
const signedIn = async (role: 'physician' | 'nurse') => {
  const { email } = await member(role)
  return cookieOf(await signIn(ask('/api/auth/sign-in/email', { body: { email, password: PASSWORD } })))
}
const with_ = (params: object) => ({ params: Promise.resolve(params) }) as never

let week = ''
beforeEach(async () => {
  const nowMs = now().getTime()
  week = lastEndedWeek(nowMs, ZONE)
  const tuesday = Date.parse(week) + 38 * 3_600_000
  const before = new Date(tuesday - 3 * 86_400_000)
  const body = enrolment({}, { placedAt: before.toISOString() })
  const { patientId } = await enrol(await member('nurse'), body, 'e', before)
  const symptoms = { at: new Date(tuesday).toISOString(), temperatureC: 38.9, chills: true, drains: [] }
  await receiveReport(
    { clinicId: HERE, patientId, door: 'check-in', source: 's', by: null, key: 'k', body: { symptoms } },
    new Date(tuesday),
  )
})

describe('the doors of the week', () => {
  it('answer nothing that tells a flag from a day before the verdict, and what happened after it', async () => {
    const cookie = await signedIn('physician')
    const list = await readWeek(ask(`/api/audit/weeks/${week}`, { method: 'GET', cookie }), with_({ week }))
    const page = WeekPage.parse(await list.json())
    const flag = await read((tx) => tx.reviewItem.findFirstOrThrow({ where: { stratum: 'within-1h' } }))
    // Read once: of what one person reads twice nothing opens before the second reading.
    await write((tx) => tx.reviewItem.update({ where: { id: flag.id }, data: { twice: false } }))
    const line = page.items.find(({ id }) => id === flag.id)
    expect(Object.keys(line ?? {}).toSorted()).toEqual([
      'birthDate',
      'counts',
      'date',
      'id',
      'n',
      'name',
      'notBefore',
      'own',
      'patientId',
      'recordNumber',
      'task',
    ])
    const door = `/api/audit/reviews/${flag.id}`
    const blind = await (
      await readItem(ask(door, { method: 'GET', cookie }), with_({ item: flag.id }))
    ).text()
    expect(blind).toContain('hills')
    expect(blind).not.toContain(flag.flagId ?? 'none')
    expect(blind).not.toMatch(/flag|stratum|probability|urgency|within-1h|infection-signs/i)

    const key = (name: string) => ({ 'idempotency-key': name })
    const early = await openItem(
      ask(`${door}/opened`, { cookie, body: {}, headers: key('o1') }),
      with_({ item: flag.id }),
    )
    expect(early.status).toBe(409)
    expect(await early.text()).not.toMatch(/infection/i)
    const body = { item: flag.id, reading: 1, verdict: 'warranted', harm: 'minor' }
    expect((await review(ask('/api/audit/reviews', { cookie, body }), with_({}))).status).toBe(400)
    const stored = await review(ask('/api/audit/reviews', { cookie, body, headers: key('r1') }), with_({}))
    expect(await stored.json()).toMatchObject({ reading: 1, isOpened: false })
    const open = await openItem(
      ask(`${door}/opened`, { cookie, body: {}, headers: key('o2') }),
      with_({ item: flag.id }),
    )
    expect(await open.json()).toMatchObject({ stratum: 'within-1h', flag: { name: 'Signs of infection' } })
  })

  it('are shut for nurses, and for a week that is not over', async () => {
    const nurse = await signedIn('nurse')
    const asked = { method: 'GET', cookie: nurse }
    expect((await readWeek(ask(`/api/audit/weeks/${week}`, asked), with_({ week }))).status).toBe(403)
    const cookie = await signedIn('physician')
    const next = new Date(Date.parse(week) + 7 * 86_400_000).toISOString().slice(0, 10)
    const early = await readWeek(
      ask(`/api/audit/weeks/${next}`, { method: 'GET', cookie }),
      with_({ week: next }),
    )
    expect(early.status).toBe(409)
  })
})
