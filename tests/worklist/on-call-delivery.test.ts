import { once } from 'node:events'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { Webhook } from 'standardwebhooks'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { transportsFrom } from '../../lib/notify/transport.ts'
import { read, write } from '../../lib/store/index.ts'
import { addLetter } from '../../lib/store/outbox.ts'
import { stepDue } from '../../lib/worklist/escalate.ts'
import { onCall, readWorklist } from '../../lib/worklist/index.ts'
import { beat, endBeat } from '../../lib/worklist/pulse.ts'
import { SWEEP } from '../../lib/worklist/sweep-timer.ts'
import { watch } from '../../lib/worklist/watchdog.ts'
import { deliver } from '../notify/deliver-all.ts'
import { house as plain } from '../notify/person.ts'
import { type MailHouse, mailHouse } from '../notify/smtp-house.ts'
import { at, CLINIC, nurse, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { drainOut, escalations, NIGHT, OPENS, onCallPerson, SECRET, setHours } from './night.ts'

databasePerTest()
beforeEach(openClinics)
beforeEach(() => setHours())

const house = { ...plain, secret: SECRET }
const hook = `whsec_${Buffer.from('an invented secret of 32 bytes!!').toString('base64')}`
let mail: MailHouse
let gateway: Server
let texts: { to: string; text: string; type: string }[] = []
beforeEach(async () => {
  mail = await mailHouse()
  texts = []
  gateway = createServer(async (request, response) => {
    let body = ''
    for await (const piece of request) body += piece
    new Webhook(hook).verify(body, request.headers as Record<string, string>)
    texts.push(JSON.parse(body))
    response.writeHead(204).end()
  }).listen(0, '127.0.0.1')
  await once(gateway, 'listening')
  vi.stubEnv('AUTH_SECRET', SECRET)
  vi.stubEnv('SMTP_URL', `smtp://127.0.0.1:${mail.port}`)
  vi.stubEnv('OUTFLOW_WEBHOOK_URL', `http://127.0.0.1:${(gateway.address() as AddressInfo).port}/texts`)
  vi.stubEnv('OUTFLOW_WEBHOOK_SECRET', hook)
})
afterEach(async () => {
  gateway.closeAllConnections()
  gateway.close()
  await mail.close()
})

const minutes = (n: number) => at(NIGHT + n / 60)
const round = async (n: number, transports = transportsFrom()) => {
  await stepDue(minutes(n), house.onCall)
  return deliver(transports, house, minutes(n))
}
const plainOf = (raw = '') =>
  raw
    .replace(/=\r?\n/g, '')
    .replace(/=3D/g, '=')
    .replace(/=E2=80=98|=E2=80=99/g, "'")
const linkIn = (text: string) => {
  const [, id = '', token = ''] = /https:\/\/round\.example\/on-call\/([\w-]+)#([\w-]+)/.exec(text) ?? []
  return { id, token }
}

describe('by a real mail server and a real gateway', () => {
  it('a drain that is out is told, repeated and passed on, until somebody has it', async () => {
    await onCallPerson('Abe', 1, { phone: '+1 555 0171' })
    await onCallPerson('Bea', 2)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    const { name } = await read((tx) => tx.patient.findUniqueOrThrow({ where: { id: patientId } }))
    for (const n of [0, 5, 10]) expect((await round(n)).errors).toEqual([])
    const sent = mail.arrived.map(plainOf)
    expect(sent.map((text) => /^To: (\S+)\r?$/m.exec(text)?.[1])).toEqual([
      'abe@larkfield.example',
      'abe@larkfield.example',
      'bea@larkfield.example',
    ])
    expect(texts.map(({ to, type }) => [to, type])).toEqual([
      ['+1 555 0171', 'on-call'],
      ['+1 555 0171', 'on-call'],
    ])
    for (const text of [...sent, ...texts.map((one) => one.text)]) {
      expect(text).not.toContain(name)
      expect(text).toMatch(/At once: Drain out\. Act by 21:00/)
      expect(text).toContain('Decision support, not a diagnosis')
    }
    expect(sent[0]).toContain('From 21:10 Bea (invented) is asked.')

    const link = linkIn(texts[0]?.text ?? '')
    expect(await onCall(link.id, { token: link.token, wish: 'have-it' }, minutes(11))).toMatchObject({
      state: 'yours',
      identity: { name },
    })
    for (const n of [15, 20, 60]) await round(n)
    expect([mail.arrived.length, texts.length]).toEqual([3, 2])
    const row = (await readWorklist(nurse, minutes(60))).rows.find((one) => one.patientId === patientId)
    expect(row?.onCall).toMatchObject({ state: 'has-it', name: 'Abe (invented)' })
  })

  it('a message that waited while somebody took it is not sent any more', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await round(0)
    await stepDue(minutes(5), null)
    const link = linkIn(plainOf(mail.arrived[0]))
    await onCall(link.id, { token: link.token, wish: 'have-it' }, minutes(5))
    await round(6)
    expect(mail.arrived).toHaveLength(1)
  })

  it('with the mail server down the gateway carries it, and the other way round', async () => {
    await onCallPerson('Abe', 1, { phone: '+1 555 0171' })
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    mail.mood = 'refuses for now'
    await round(0)
    expect([mail.arrived.length, texts.length]).toEqual([0, 1])
  })

  it('the outbox holds no secret of a link, before and after sending', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await stepDue(minutes(0), null)
    const before = JSON.stringify(await read((tx) => tx.outbox.findMany()))
    await round(0)
    const { token } = linkIn(plainOf(mail.arrived[0]))
    expect(token.length).toBe(43)
    const after = JSON.stringify(
      await read((tx) => Promise.all([tx.outbox.findMany(), tx.escalationStep.findMany()])),
    )
    for (const kept of [before, after]) expect(kept).not.toContain(token)
  })
})

describe('the watchdog', () => {
  const look = (n: number) => watch(minutes(n), house, transportsFrom())
  const stopSweep = async () => {
    beat(SWEEP, 1)
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
  afterEach(() => endBeat(SWEEP))

  it('finds nothing where all runs', async () => {
    expect(await look(0)).toEqual({ troubles: [], opened: 0, ended: 0, errors: [] })
  })

  it('tells the person on call of a sweep that has stopped, itself, and says so on the worklist until it runs again', async () => {
    await onCallPerson('Abe', 1)
    await stopSweep()
    expect(await look(0)).toMatchObject({ troubles: [{ what: 'sweep' }], errors: [] })
    expect(plainOf(mail.arrived[0])).toMatch(/the system itself needs somebody[\s\S]*The sweep has stopped/)
    expect((await readWorklist(nurse, minutes(1))).system.join(' ')).toContain('The sweep has stopped')
    const { id, token } = linkIn(plainOf(mail.arrived[0]))
    expect(await onCall(id, { token, wish: 'look' }, minutes(2))).toMatchObject({
      identity: null,
      findings: [],
    })
    beat(SWEEP, 60_000)
    expect(await look(3)).toMatchObject({ troubles: [], ended: 2 }) // one in each of the two clinics
    expect((await readWorklist(nurse, minutes(4))).system.join(' ')).not.toContain('The sweep')
  })

  it('tells of it in opening hours, too', async () => {
    await onCallPerson('Abe', 1)
    await stopSweep()
    await watch(at(OPENS + 1), house, transportsFrom())
    expect(mail.arrived).toHaveLength(1)
  })

  it('tells of letters that do not go out by the way that still works', async () => {
    await onCallPerson('Abe', 1, { phone: '+1 555 0171' })
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    mail.mood = 'refuses for now'
    for (const n of [0, 5, 10]) await round(n)
    const before = texts.length
    expect(await look(11)).toMatchObject({ troubles: [{ what: 'outbox' }], opened: expect.any(Number) })
    expect(
      texts
        .slice(before)
        .map(({ text }) => text)
        .join(),
    ).toMatch(/Letters do not go out/)
    const [, ofSystem] = await escalations()
    expect(ofSystem?.patientId).toBeNull()
  })

  it('finds a delivery that has stopped, and delivers by itself what cannot wait', async () => {
    await onCallPerson('Abe', 1)
    const { patientId, drain } = await patient()
    await drainOut(patientId, drain, NIGHT)
    await stepDue(minutes(0), null)
    await look(9)
    expect(mail.arrived).toHaveLength(0)
    await look(11)
    expect(mail.arrived.map(plainOf).join()).toMatch(/Drain out/)
  })

  it('is not woken by one wrong address, nor by a letter that is put off', async () => {
    const reset = { to: 'a@b.example', name: 'A', link: 'https://round.example/x' }
    await write((tx) =>
      addLetter(tx, { clinicId: CLINIC, patientId: null, kind: 'reset-password', body: reset }, minutes(0)),
    )
    mail.mood = 'refuses for good'
    await round(0)
    expect((await look(30)).troubles).toEqual([])
  })
})
