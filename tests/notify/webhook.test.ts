import { createHmac } from 'node:crypto'
import { once } from 'node:events'
import { createServer, type IncomingHttpHeaders, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { Webhook } from 'standardwebhooks'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { giveReminders } from '../../lib/notify/reminder-timer.ts'
import { transportsSetUp } from '../../lib/notify/set-up.ts'
import { transportsFrom } from '../../lib/notify/transport.ts'
import { read } from '../../lib/store/index.ts'
import { at, openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { deliver } from './deliver-all.ts'
import { house, log, person } from './person.ts'

databasePerTest()
beforeEach(openClinics)

const SECRET = `whsec_${Buffer.from('an invented secret of 32 bytes!!').toString('base64')}`
const seconds = (n: number) => at(32 + n / 3600)
const outbox = () => read((tx) => tx.outbox.findFirstOrThrow())

type Call = { path: string; headers: IncomingHttpHeaders; body: string }
let server: Server
let port = 0
let calls: Call[] = []
/** How the gateway answers; null: not at all. */
let reply: { status: number; location?: string } | null = { status: 204 }
beforeEach(async () => {
  calls = []
  reply = { status: 204 }
  server = createServer(async (request, response) => {
    let body = ''
    for await (const piece of request) body += piece
    calls.push({ path: request.url ?? '', headers: request.headers, body })
    if (reply) response.writeHead(reply.status, reply.location ? { location: reply.location } : {}).end()
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  port = (server.address() as AddressInfo).port
})
afterEach(() => {
  server.closeAllConnections()
  server.close()
})

const settings = (url: string, secret = SECRET) =>
  ({ OUTFLOW_WEBHOOK_URL: url, OUTFLOW_WEBHOOK_SECRET: secret }) as never
const gateway = () => transportsFrom(settings(`http://127.0.0.1:${port}/texts`))

async function aReminder() {
  const { patientId, drains } = await person({
    checkInLanguage: 'es',
    reminders: { channel: 'gateway', at: '09:00' },
  })
  await log(patientId, drains[0] ?? '', 9)
  await giveReminders(at(32))
  return outbox()
}

describe('the clinic’s gateway', () => {
  it('gets what to send to whom, signed', async () => {
    const { id } = await aReminder()
    expect(await deliver(gateway(), house, seconds(1))).toEqual({ sent: 1, errors: [] })
    const [call] = calls
    if (!call) throw new Error('no call came')
    const sent = new Webhook(SECRET).verify(call.body, call.headers as Record<string, string>)
    expect(sent).toEqual({
      type: 'reminder',
      to: '+1 555 0101',
      language: 'es',
      text: expect.stringContaining('Su clínica le pide'),
    })
    expect([call.path, call.headers['webhook-id'], call.headers['content-type']]).toEqual([
      '/texts',
      id,
      'application/json',
    ])
    // By hand, as the specification has it: HMAC-SHA256 over id.timestamp.body with the decoded secret.
    const key = Buffer.from(SECRET.slice('whsec_'.length), 'base64')
    const signed = `${id}.${call.headers['webhook-timestamp']}.${call.body}`
    const mac = createHmac('sha256', key).update(signed).digest('base64')
    expect(call.headers['webhook-signature']).toBe(`v1,${mac}`)
  })

  it.each([500, 429, 404, 302])('that answers %i is tried again later under the same id', async (status) => {
    const { id } = await aReminder()
    reply = { status, ...(status === 302 ? { location: `http://127.0.0.1:${port}/elsewhere` } : {}) }
    const transports = gateway()
    const { sent, errors } = await deliver(transports, house, seconds(0))
    expect([sent, errors]).toMatchObject([0, [{ error: { message: `the gateway answered ${status}` } }]])
    reply = { status: 200 }
    expect(await deliver(transports, house, seconds(10))).toEqual({ sent: 1, errors: [] })
    expect(calls.map(({ path, headers }) => [path, headers['webhook-id']])).toEqual([
      ['/texts', id],
      ['/texts', id],
    ])
  })

  it('that hangs is given up after its time, and tried again', async () => {
    await aReminder()
    reply = null
    const transports = gateway()
    const { errors } = await deliver(transports, house, seconds(0), { letterMs: 500, roundMs: 60_000 })
    expect(errors).toHaveLength(1)
    reply = { status: 204 }
    expect(await deliver(transports, house, seconds(10))).toEqual({ sent: 1, errors: [] })
  })

  it('that answers 410 is asked no more', async () => {
    await aReminder()
    await aReminder()
    reply = { status: 410 }
    const transports = gateway()
    expect(await deliver(transports, house, seconds(0))).toEqual({ sent: 0, errors: [] })
    expect(calls).toHaveLength(1)
    const letters = await read((tx) => tx.outbox.findMany())
    expect(letters.map(({ lastError, givenUpAt }) => [givenUpAt !== null, lastError?.slice(0, 24)])).toEqual([
      [true, 'the gateway answered 410'],
      [true, 'the gateway answered 410'],
    ])
  })

  it('that is not set up gets nothing, and the outbox says why', async () => {
    await aReminder()
    expect(await deliver(transportsFrom({} as never), house, seconds(0))).toEqual({ sent: 0, errors: [] })
    expect((await outbox()).lastError).toContain('OUTFLOW_WEBHOOK_URL is not set')
  })
})

it('signs the example of the specification’s own libraries as they do', () => {
  const signed = new Webhook('whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw').sign(
    'msg_p5jXN8AQM9LWM0D4loKWxJek',
    new Date(1614265330 * 1000),
    '{"test": 2432232314}',
  )
  expect(signed).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=')
})

it.each([
  ['', SECRET, /is not set/],
  ['gateway', SECRET, /no address/],
  ['http://texts.example/in', SECRET, /not https/],
  ['https://texts.example/in', 'whsec_c2hvcnQ=', /has 5 bytes/],
  ['https://texts.example/in', SECRET, null],
  ['http://localhost:8080/in', SECRET, null],
])('what is set up is told: %s', (url, secret, trouble) => {
  const told = transportsSetUp(settings(url, secret))
  expect(told).toMatchObject({ mail: 'files', gateway: trouble ? 'none' : 'webhook' })
  if (trouble) expect(told.gatewayTrouble).toMatch(trouble)
  else expect(told.gatewayTrouble).toBeNull()
})
