import { beforeEach, describe, expect, it } from 'vitest'
import { POST as signIn } from '../../app/api/auth/[...all]/route.ts'
import { POST as checkIn, GET as checkInView } from '../../app/api/check-in/route.ts'
import { GET as readClinic, POST as saveClinic } from '../../app/api/clinic/route.ts'
import { POST as approveText } from '../../app/api/clinic/texts/approve/route.ts'
import { GET as readTexts, POST as writeText } from '../../app/api/clinic/texts/route.ts'
import { GET as health } from '../../app/api/health/route.ts'
import { POST as renewLink } from '../../app/api/link/renew/route.ts'
import { DELETE as forgetLink, POST as openLink } from '../../app/api/link/route.ts'
import { POST as recordCallback } from '../../app/api/patients/[id]/callbacks/route.ts'
import { DELETE as release, PUT as renew, POST as take } from '../../app/api/patients/[id]/hold/route.ts'
import { POST as issueCode } from '../../app/api/patients/[id]/link/code/route.ts'
import { POST as issueLink, DELETE as revokeLinks } from '../../app/api/patients/[id]/link/route.ts'
import { POST as replaceLink } from '../../app/api/patients/[id]/links/[link]/replace/route.ts'
import { DELETE as revokeLink } from '../../app/api/patients/[id]/links/[link]/route.ts'
import { GET as listLinks } from '../../app/api/patients/[id]/links/route.ts'
import { POST as changeOrders } from '../../app/api/patients/[id]/orders/route.ts'
import { POST as phoneIn } from '../../app/api/patients/[id]/reports/route.ts'
import { GET as patientPage } from '../../app/api/patients/[id]/route.ts'
import { POST as staffEvent } from '../../app/api/patients/[id]/staff-events/route.ts'
import { POST as enrol } from '../../app/api/patients/route.ts'
import { POST as systemReport } from '../../app/api/reports/route.ts'
import { GET as events } from '../../app/api/worklist/events/route.ts'
import { GET as worklist } from '../../app/api/worklist/route.ts'
import { verifyChain } from '../../lib/access/index.ts'
import type { Role } from '../../lib/domain/staff.ts'
import { admitSystem } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { ask, cookieOf, ELSEWHERE, HERE, member, PASSWORD, usePlace } from '../access/place.ts'
import { enrolment } from '../store/clinic.ts'

usePlace()

const signedIn = async (role: Role, clinicId = HERE) => {
  const { email } = await member(role, clinicId)
  return cookieOf(await signIn(ask('/api/auth/sign-in/email', { body: { email, password: PASSWORD } })))
}
const key = (name: string) => ({ 'idempotency-key': name })
const of = (id: string) => ({ params: Promise.resolve({ id }) })
const none = { params: Promise.resolve({}) }
const kindOf = async (response: Response) => (await response.json()).type.split(':').at(-1)
type OfPatient = (request: Request, context: { params: Promise<{ id: string }> }) => Promise<Response>

let nurse = ''
let patientId = ''
let drain = ''
let token = ''
beforeEach(async () => {
  nurse = await signedIn('nurse')
  const response = await enrol(
    ask('/api/patients', { cookie: nurse, body: enrolment(), headers: key('e') }),
    none as never,
  )
  const enrolled = await response.json()
  patientId = enrolled.patientId
  token = enrolled.link.split('#')[1]
  drain = (await read((tx) => tx.drain.findFirstOrThrow({ where: { patientId } }))).id
})
const report = () => ({ symptoms: { at: '2026-03-02T08:00:00-07:00', drains: [{ drain, leak: true }] } })

describe('a personal link', () => {
  const exchange = (given: string) => openLink(ask('/api/link', { body: { token: given } }))

  it('opens a session, in which a report is sent once however often it comes', async () => {
    const opened = await exchange(token)
    expect(opened.headers.getSetCookie().join()).toMatch(
      /^__Host-check-in=[\w-]{43}; Path=\/; Secure; HttpOnly; SameSite=Strict/,
    )
    const cookie = cookieOf(opened)
    expect(await (await checkInView(ask('/api/check-in', { method: 'GET', cookie }))).json()).toMatchObject({
      patient: { firstName: 'Ada' },
    })
    const send = (body: unknown) => checkIn(ask('/api/check-in', { cookie, body, headers: key('r1') }))
    const answers = await Promise.all([send(report()), send(report()), send(report())])
    const receipts = await Promise.all(answers.map(async (answer) => (await answer.json()).receipt))
    expect(new Set(receipts).size).toBe(1)
    expect(await read((tx) => tx.report.count())).toBe(1)
    expect((await send({ note: 'another' })).status).toBe(422)
    expect(await kindOf(await checkIn(ask('/api/check-in', { cookie, body: report() })))).toBe('key-missing')
  })

  it('that is unknown, revoked or over answers alike', async () => {
    const cookie = cookieOf(await exchange(token))
    await revokeLinks(
      ask(`/api/patients/${patientId}/link`, { method: 'DELETE', cookie: nurse }),
      of(patientId),
    )
    const answers = await Promise.all([exchange(token), exchange('unknown'), exchange('')])
    const problems = await Promise.all(
      answers.map(async (answer) => ({ status: answer.status, ...(await answer.json()), instance: '' })),
    )
    expect(new Set(problems.map((problem) => JSON.stringify(problem))).size).toBe(1)
    expect(problems[0]).toMatchObject({ status: 401, type: 'urn:outflow-round:problem:link-not-valid' })
    expect((await checkInView(ask('/api/check-in', { method: 'GET', cookie }))).status).toBe(401)
  })

  it('cannot be guessed without end: twenty wrong tries from one address, and no more are read', async () => {
    const statuses = await Promise.all(
      Array.from({ length: 30 }, async () => (await exchange('guess')).status),
    )
    expect(statuses.filter((status) => status === 401).length).toBe(20)
    expect(statuses.filter((status) => status === 429).length).toBe(10)
    const refused = await exchange(token)
    expect([refused.status, Number(refused.headers.get('retry-after')) > 0]).toEqual([429, true])
  }, 60_000)

  it('is opened as often as need be by who has it', async () => {
    for (let i = 0; i < 30; i++) expect((await exchange(token)).status).toBe(200)
  })

  it('lives in a cookie as long as the link, which one phone can forget', async () => {
    const opened = await exchange(token)
    const { expiresAt } = await opened.json()
    const days = (Date.parse(expiresAt) - Date.now()) / 86_400_000
    expect(Math.round(days)).toBe(180)
    expect(opened.headers.getSetCookie().join()).toContain(`Expires=${new Date(expiresAt).toUTCString()}`)
    const cookie = cookieOf(opened)
    const forget = () => forgetLink(ask('/api/link', { method: 'DELETE', cookie, body: {} }))
    const forgotten = await forget()
    expect([forgotten.status, forgotten.headers.getSetCookie().join()]).toEqual([
      200,
      expect.stringMatching(/^__Host-check-in=; .*Max-Age=0/),
    ])
    expect((await checkInView(ask('/api/check-in', { method: 'GET', cookie }))).status).toBe(401)
    expect((await forget()).status).toBe(401)
    expect((await exchange(token)).status).toBe(200)
  })

  it('is renewed with a code that staff read out, and with nothing else', async () => {
    const path = `/api/patients/${patientId}/link/code`
    const issued = await issueCode(ask(path, { cookie: nurse, headers: key('c1') }), of(patientId))
    const { code } = await issued.json()
    const renew = (body: unknown) => renewLink(ask('/api/link/renew', { body }))
    const refused = await renew({ token, code: String((Number(code) + 1) % 100_000_000).padStart(8, '0') })
    expect([refused.status, await kindOf(refused)]).toEqual([401, 'link-not-valid'])
    const renewed = await renew({ token, code })
    expect(renewed.status).toBe(200)
    const cookie = cookieOf(renewed)
    expect((await checkInView(ask('/api/check-in', { method: 'GET', cookie }))).status).toBe(200)
    expect((await renew({ token, code })).status).toBe(401)
    expect((await renew({ token })).status).toBe(400)
  })

  it('is listed, replaced and ended by staff; the old phone is out at once', async () => {
    const cookie = cookieOf(await exchange(token))
    const path = `/api/patients/${patientId}/links`
    const list = async () =>
      (await listLinks(ask(path, { method: 'GET', cookie: nurse }), of(patientId))).json()
    const [own] = await list()
    expect(own).toMatchObject({ holder: 'patient', lastOpenedAt: expect.any(String) })
    const ofLink = { params: Promise.resolve({ id: patientId, link: own.id as string }) }
    const replaced = await (
      await replaceLink(ask(`${path}/${own.id}/replace`, { cookie: nurse, headers: key('r') }), ofLink)
    ).json()
    expect((await checkInView(ask('/api/check-in', { method: 'GET', cookie }))).status).toBe(401)
    expect((await exchange(token)).status).toBe(401)
    expect((await exchange(replaced.link.split('#')[1])).status).toBe(200)
    const [next] = await list()
    const end = await revokeLink(ask(`${path}/${next.id}`, { method: 'DELETE', cookie: nurse }), {
      params: Promise.resolve({ id: patientId, link: next.id as string }),
    })
    expect([end.status, await list()]).toEqual([200, []])
  })

  it('of a helper names its sender, and answers in the language of its page', async () => {
    const helper = { holder: 'helper', holderName: 'Rosa Invented', maySee: false }
    const path = `/api/patients/${patientId}/link`
    const { link } = await (
      await issueLink(ask(path, { cookie: nurse, headers: key('h'), body: helper }), of(patientId))
    ).json()
    const cookie = cookieOf(await exchange(link.split('#')[1]))
    const sent = await checkIn(
      ask('/api/check-in', { cookie, body: report(), headers: { ...key('r1'), 'outflow-language': 'es' } }),
    )
    const { advice } = await sent.json()
    expect(advice[0]).toMatchObject({ name: 'leak', version: 'standard', read: false })
    expect(advice[0].text).toContain('Llame ahora a su clínica')
    expect(await read((tx) => tx.report.findFirst())).toMatchObject({
      reporter: 'helper',
      sentBy: 'Rosa Invented',
    })
  })

  it('is issued once per key', async () => {
    const issue = () =>
      issueLink(ask(`/api/patients/${patientId}/link`, { cookie: nurse, headers: key('l1') }), of(patientId))
    const [one, two] = [await (await issue()).json(), await (await issue()).json()]
    expect([one.link, one.link === token]).toEqual([two.link, false])
    expect(await read((tx) => tx.patientLink.count())).toBe(2)
  })
})

describe('a sending system', () => {
  const send = (apiKey: string, body: unknown, name = 's1') =>
    systemReport(ask('/api/reports', { body, headers: { authorization: `Bearer ${apiKey}`, ...key(name) } }))

  it('sends for a patient of its clinic, by our id or the record number', async () => {
    const { key: apiKey } = await admitSystem(HERE, 'ward system', 'the test')
    const { recordNumber } = await read((tx) => tx.patient.findFirstOrThrow())
    expect((await send(apiKey, { patient: patientId, ...report() })).status).toBe(200)
    expect((await send(apiKey, { patient: recordNumber, ...report() }, 's2')).status).toBe(200)
    expect((await send(apiKey, report(), 's3')).status).toBe(400)
  })

  it('sends for nobody else’s patient', async () => {
    const { key: apiKey } = await admitSystem(ELSEWHERE, 'another system', 'the test')
    expect((await send(apiKey, { patient: patientId, ...report() })).status).toBe(400)
    expect(await read((tx) => tx.report.count())).toBe(0)
  })

  it('without a key of ours is refused, and counted', async () => {
    const statuses = await Promise.all(
      Array.from({ length: 40 }, async () => (await send('x'.repeat(43), {})).status),
    )
    expect([
      statuses.filter((status) => status === 401).length,
      statuses.filter((status) => status === 429).length,
    ]).toEqual([30, 10])
  })
})

describe('a nurse', () => {
  it('takes, keeps and gives back a row; another nurse is told who has it', async () => {
    const other = await signedIn('nurse')
    const hold = (door: OfPatient, method: string, cookie: string, body?: unknown) =>
      door(ask(`/api/patients/${patientId}/hold`, { method, cookie, body, headers: key('h') }), of(patientId))
    expect((await hold(take, 'POST', nurse, {})).status).toBe(200)
    const refused = await hold(take, 'POST', other, {})
    expect([refused.status, (await refused.json()).detail]).toEqual([
      409,
      expect.stringContaining('Invented Person'),
    ])
    expect((await hold(take, 'POST', other, { reason: 'I know this patient' })).status).toBe(403)
    expect(
      (await hold(take, 'POST', await signedIn('charge-nurse'), { reason: 'she was called away' })).status,
    ).toBe(200)
    expect((await hold(renew, 'PUT', nurse)).status).toBe(409)
    expect((await hold(release, 'DELETE', nurse)).status).toBe(204)
  })

  it('stores nothing without a key', async () => {
    const doors: [OfPatient, string, unknown][] = [
      [take, 'hold', {}],
      [recordCallback, 'callbacks', { outcome: 'no-answer' }],
      [phoneIn, 'reports', report()],
      [staffEvent, 'staff-events', { at: '2026-03-02T08:00:00Z', drain, type: 'position-checked' }],
      [issueLink, 'link', undefined],
      [changeOrders, 'orders', { drain, why: 'more often', logEveryHours: 12 }],
    ]
    for (const [door, path, body] of doors) {
      const send = (headers?: Record<string, string>) =>
        door(
          ask(`/api/patients/${patientId}/${path}`, { cookie: nurse, body, ...(headers ? { headers } : {}) }),
          of(patientId),
        )
      expect([path, await kindOf(await send())]).toEqual([path, 'key-missing'])
      expect([path, (await send(key(path))).status]).toEqual([path, 200])
    }
    expect(
      await kindOf(await enrol(ask('/api/patients', { cookie: nurse, body: enrolment() }), none as never)),
    ).toBe('key-missing')
  })

  it('of another clinic finds no such patient, whatever the door', async () => {
    const stranger = await signedIn('nurse', ELSEWHERE)
    const doors: [OfPatient, string, string, unknown][] = [
      [patientPage, 'GET', '', undefined],
      [take, 'POST', '/hold', {}],
      [renew, 'PUT', '/hold', undefined],
      [release, 'DELETE', '/hold', undefined],
      [recordCallback, 'POST', '/callbacks', { outcome: 'no-answer' }],
      [phoneIn, 'POST', '/reports', report()],
      [staffEvent, 'POST', '/staff-events', { at: '2026-03-02T08:00:00Z', drain, type: 'position-checked' }],
      [issueLink, 'POST', '/link', undefined],
      [revokeLinks, 'DELETE', '/link', undefined],
      [changeOrders, 'POST', '/orders', { drain, why: 'more often', logEveryHours: 12 }],
    ]
    for (const [door, method, path, body] of doors) {
      const response = await door(
        ask(`/api/patients/${patientId}${path}`, {
          method,
          body,
          cookie: stranger,
          headers: key(`x${path}`),
        }),
        of(patientId),
      )
      expect([method, path, response.status]).toEqual([method, path, 404])
    }
    const list = await (
      await worklist(ask('/api/worklist', { method: 'GET', cookie: stranger }), none as never)
    ).json()
    expect([list.patients, list.rows]).toEqual([0, []])
  })

  it('sees and changes nothing that the access record does not tell of', async () => {
    await patientPage(ask(`/api/patients/${patientId}`, { method: 'GET', cookie: nurse }), of(patientId))
    await take(
      ask(`/api/patients/${patientId}/hold`, { cookie: nurse, body: {}, headers: key('h') }),
      of(patientId),
    )
    await phoneIn(
      ask(`/api/patients/${patientId}/reports`, { cookie: nurse, body: report(), headers: key('p') }),
      of(patientId),
    )
    await worklist(ask('/api/worklist', { method: 'GET', cookie: nurse }), none as never)
    const rows = await read((tx) =>
      tx.accessRecord.findMany({ where: { clinicId: HERE }, orderBy: { seq: 'asc' } }),
    )
    expect(rows.map(({ action }) => action)).toEqual([
      'create-staff',
      'sign-in',
      'enrol',
      'view-patient',
      'take-row',
      'report',
      'view-worklist',
    ])
    expect(rows.filter((row) => row.patientId === patientId)).toHaveLength(4)
    expect(rows.at(-1)?.what).toContain(patientId)
    expect(await read((tx) => verifyChain(tx, HERE))).toMatchObject({ whole: true, rows: 7 })
  })

  it('is heard of when she is refused', async () => {
    const administrator = await signedIn('administrator')
    expect(
      (
        await patientPage(
          ask(`/api/patients/${patientId}`, { method: 'GET', cookie: administrator }),
          of(patientId),
        )
      ).status,
    ).toBe(403)
    const last = await read((tx) =>
      tx.accessRecord.findFirstOrThrow({ where: { clinicId: HERE }, orderBy: { seq: 'desc' } }),
    )
    expect(last).toMatchObject({
      action: 'denied',
      role: 'administrator',
      what: expect.stringContaining(`read-patient at GET /api/patients/${patientId}`),
    })
  })

  it('hears of a change within her clinic while she may, and not of others', async () => {
    const listen = async (cookie: string) => {
      const browser = new AbortController()
      const request = new Request(ask('/api/worklist/events', { method: 'GET', cookie }), {
        signal: browser.signal,
      })
      return { browser, response: await events(request, none as never) }
    }
    const [here, elsewhere] = [await listen(nurse), await listen(await signedIn('nurse', ELSEWHERE))]
    await phoneIn(
      ask(`/api/patients/${patientId}/reports`, { cookie: nurse, body: report(), headers: key('p') }),
      of(patientId),
    )
    for (const { browser } of [here, elsewhere]) browser.abort()
    expect(await here.response.text()).toContain(`event: changed\ndata: {"patientId":"${patientId}"}`)
    expect(await elsewhere.response.text()).not.toContain('changed')
  })

  it('is told what is wrong with what she sends, and where', async () => {
    const send = (body: unknown) =>
      phoneIn(
        ask(`/api/patients/${patientId}/reports`, { cookie: nurse, body, headers: key('p') }),
        of(patientId),
      )
    const bad = await send({ readings: [{ drain, at: '2026-03-02T08:00:00Z', volumeMl: -1 }] })
    expect([bad.status, (await bad.json()).faults]).toEqual([
      400,
      [
        expect.objectContaining({
          field: 'readings[0].volumeMl',
          value: -1,
          message: expect.stringContaining('accepted'),
        }),
      ],
    ])
    expect((await send(`"${'x'.repeat(65 * 1024)}"`)).status).toBe(413)
    expect((await send('{')).status).toBe(400)
  })
})

describe('the settings of the clinic', () => {
  const settings = { phone: '+1 555 0123', afterHoursPhone: null, hours: null, quiet: null }

  it('are changed by whoever may, and shown to the patient', async () => {
    const charge = await signedIn('charge-nurse')
    const save = (cookie: string, headers = {}) =>
      saveClinic(ask('/api/clinic', { cookie, body: settings, headers }), none as never)
    expect((await save(nurse, key('s0'))).status).toBe(403)
    expect(await kindOf(await save(charge))).toBe('key-missing')
    expect((await save(charge, key('s1'))).status).toBe(200)
    const page = await readClinic(ask('/api/clinic', { method: 'GET', cookie: charge }), none as never)
    expect(await page.json()).toMatchObject({
      settings,
      changedBy: expect.stringContaining('Invented Person'),
    })
    const cookie = cookieOf(await openLink(ask('/api/link', { body: { token } })))
    const view = await checkInView(ask('/api/check-in', { method: 'GET', cookie }))
    expect(await view.json()).toMatchObject({ clinic: { phone: '+1 555 0123' } })
  })

  it('hold texts that a charge nurse writes and a physician approves', async () => {
    const [charge, physician] = [await signedIn('charge-nurse'), await signedIn('physician')]
    const text = { name: 'leak', language: 'en', text: 'Call us now about the leak.' }
    const written = await writeText(
      ask('/api/clinic/texts', { cookie: charge, body: text, headers: key('t1') }),
      none as never,
    )
    const { id } = await written.json()
    const approve = (cookie: string) =>
      approveText(
        ask('/api/clinic/texts/approve', { cookie, body: { id }, headers: key('a1') }),
        none as never,
      )
    expect((await approve(charge)).status).toBe(403)
    expect((await approve(physician)).status).toBe(200)
    const page = await (
      await readTexts(ask('/api/clinic/texts', { method: 'GET', cookie: charge }), none as never)
    ).json()
    const leak = page.cases.find(({ name }: { name: string }) => name === 'leak')
    expect(leak.languages[0].inForce).toEqual({ text: text.text, version: '1', read: true })
    const cookie = cookieOf(await openLink(ask('/api/link', { body: { token } })))
    const receipt = await checkIn(ask('/api/check-in', { cookie, body: report(), headers: key('r') }))
    expect((await receipt.json()).advice[0]).toMatchObject({ name: 'leak', text: text.text, version: '1' })
  })
})

describe('health', () => {
  it('is not claimed while the sweep does not run', async () => {
    const response = await health(ask('/api/health', { method: 'GET' }))
    expect([response.status, (await response.json()).detail]).toEqual([503, 'The sweep does not run.'])
  })
})
