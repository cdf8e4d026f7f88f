import { once } from 'node:events'
import { readdirSync, readFileSync, statSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import path from 'node:path'
import { SMTPServer } from 'smtp-server'
import { afterEach, describe, expect, it } from 'vitest'
import { type Message, type Transport, type Transports, transportsFrom } from '../../lib/notify/transport.ts'
import { read, write } from '../../lib/store/index.ts'
import { takeLease } from '../../lib/store/leases.ts'
import { addLetter } from '../../lib/store/outbox.ts'
import { databasePerTest } from '../store/database.ts'
import { deliver } from './deliver-all.ts'

const database = databasePerTest()

const START = Date.parse('2026-03-02T08:00:00.000Z')
const at = (seconds: number) => new Date(START + seconds * 1000)
const house = { origin: 'http://127.0.0.1:3000', onCall: null as string | null, secret: 's'.repeat(32) }
const reset = {
  clinicId: 'c',
  patientId: null,
  kind: 'reset-password',
  body: {
    to: 'nora@larkfield.example',
    name: 'Nora Invented',
    link: 'http://127.0.0.1:3000/reset-password#t0k3n',
  },
}
const pressing = {
  clinicId: 'c',
  patientId: 'p1',
  kind: 'pressing-flags',
  body: {
    flags: [
      { flag: 'f1', code: 'drain-out', drain: 'd1', urgency: 'at-once', actBy: '2026-03-02T08:00:00.000Z' },
    ],
  },
}
const write1 = (letter: typeof reset | typeof pressing) => write((tx) => addLetter(tx, letter, at(0)))
const outbox = () => read((tx) => tx.outbox.findFirstOrThrow())

/** A transport that keeps what it is given, and fails as long as it is told to. */
function memory() {
  const mails: Message[] = []
  const state = { fails: false }
  const one: Transport = {
    name: 'memory',
    send: async (mail) => {
      if (state.fails) throw new Error('connection refused')
      mails.push(mail)
    },
  }
  const transport: Transports = { mail: one, gateway: one }
  return { mails, state, transport }
}

describe('delivery', () => {
  it('sends what is due once, and keeps nothing of its contents', async () => {
    await write1(reset)
    const { mails, transport } = memory()
    expect(await deliver(transport, house, at(1))).toEqual({ sent: 1, errors: [] })
    expect(await deliver(transport, house, at(2))).toEqual({ sent: 0, errors: [] })
    expect(mails).toMatchObject([
      { to: 'nora@larkfield.example', text: expect.stringContaining('/reset-password#t0k3n') },
    ])
    expect(await outbox()).toMatchObject({ sentAt: at(1).toISOString(), body: '{}', attempts: 1 })
  })

  it('tries again later and later, and sends as soon as it can', async () => {
    await write1(reset)
    const { mails, state, transport } = memory()
    state.fails = true
    const waits: number[] = []
    for (let second = 0; waits.length < 4; second++) {
      const { errors } = await deliver(transport, house, at(second))
      if (errors.length > 0) waits.push(second)
    }
    expect(waits).toEqual([0, 10, 30, 70])
    expect(await outbox()).toMatchObject({ sentAt: null, attempts: 4, lastError: 'connection refused' })
    state.fails = false
    await deliver(transport, house, at(3600))
    expect(mails).toHaveLength(1)
  })

  it('gives up after a day, and then keeps nothing of the contents either', async () => {
    await write1(reset)
    const { mails, transport } = memory()
    await deliver(transport, house, at(86_400))
    expect(mails).toEqual([])
    expect(await outbox()).toMatchObject({
      givenUpAt: at(86_400).toISOString(),
      body: '{}',
      lastError: 'could not be sent within a day',
    })
  })

  it('lets one bad letter hold up no other', async () => {
    await write((tx) => addLetter(tx, { ...reset, kind: 'unheard-of' }, at(0)))
    await write((tx) => addLetter(tx, { ...reset, body: { to: 'nobody' } }, at(0)))
    await write1(reset)
    const { mails, transport } = memory()
    const { sent, errors } = await deliver(transport, house, at(1))
    expect([sent, errors.length, mails.length]).toEqual([1, 2, 1])
  })

  it('leaves the outbox to another process that is at it', async () => {
    await write1(reset)
    await write((tx) => takeLease(tx, 'outbox mail', 'another process', at(0), 60_000))
    const { transport } = memory()
    expect(await deliver(transport, house, at(1))).toEqual({ sent: 0, errors: [] })
    expect(await deliver(transport, house, at(61))).toMatchObject({ sent: 1 })
  })

  it('tells the on-call address what cannot wait, and names no patient', async () => {
    await write1(pressing)
    const { mails, transport } = memory()
    await deliver(transport, { ...house, onCall: 'oncall@larkfield.example' }, at(1))
    expect(mails).toMatchObject([
      {
        to: 'oncall@larkfield.example',
        text: expect.stringMatching(
          /At once: .+\n\nSign in and look: http:\/\/127\.0\.0\.1:3000\/patients\/p1/,
        ),
      },
    ])
  })

  it('gives up a letter for which there is nobody, without calling it an error', async () => {
    await write1(pressing)
    const { transport } = memory()
    expect(await deliver(transport, house, at(1))).toEqual({ sent: 0, errors: [] })
    expect(await outbox()).toMatchObject({
      lastError: expect.stringContaining('OUTFLOW_ONCALL_EMAIL'),
      givenUpAt: at(1).toISOString(),
    })
  })
})

describe('without a mail server', () => {
  it('each letter is a file beside the database, for its owner alone', async () => {
    await write1(reset)
    await deliver(transportsFrom({ DATABASE_URL: `file:${database.file}` } as never), house, at(1))
    const folder = path.join(database.folder, 'mail')
    const [name] = readdirSync(folder)
    const file = path.join(folder, name ?? '')
    expect([readdirSync(folder).length, statSync(file).mode & 0o777, name]).toEqual([
      1,
      0o600,
      expect.stringMatching(/\.eml$/),
    ])
    expect(readFileSync(file, 'utf8')).toMatch(/From: .*\r\nTo: nora@larkfield\.example\r\n/)
  })
})

describe('with a mail server', () => {
  let server: SMTPServer | undefined
  afterEach(() => new Promise<void>((resolve) => (server ? server.close(() => resolve()) : resolve())))

  it('a letter arrives there, under an id that a repeat has too', async () => {
    const arrived: string[] = []
    server = new SMTPServer({
      authOptional: true,
      disabledCommands: ['STARTTLS'],
      onData: (stream, _, callback) => {
        let text = ''
        stream.on('data', (piece) => (text += piece))
        stream.on('end', () => {
          arrived.push(text)
          callback()
        })
      },
    })
    const listening = server.listen(0, '127.0.0.1')
    await once(listening, 'listening')
    const { port } = listening.address() as AddressInfo
    await write1(reset)
    const { id } = await outbox()
    const transport = transportsFrom({
      SMTP_URL: `smtp://127.0.0.1:${port}`,
      OUTFLOW_MAIL_FROM: 'Round <round@larkfield.example>',
    } as never)
    expect(await deliver(transport, house, at(1))).toEqual({ sent: 1, errors: [] })
    expect(arrived[0]).toContain(`Message-ID: <${id}@outflow-round>`)
    expect(arrived[0]).toContain('From: Round <round@larkfield.example>')
  })
})
