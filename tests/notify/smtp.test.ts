import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { deliverLane } from '../../lib/notify/deliver.ts'
import { giveReminders } from '../../lib/notify/reminder-timer.ts'
import { type Transports, transportsFrom } from '../../lib/notify/transport.ts'
import { closeStore, read, write } from '../../lib/store/index.ts'
import { addLetter } from '../../lib/store/outbox.ts'
import { at, openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { deliver } from './deliver-all.ts'
import { house, log, memory, person } from './person.ts'
import { deafHouse, type MailHouse, mailHouse } from './smtp-house.ts'

const database = databasePerTest()
beforeEach(openClinics)

let server: MailHouse
let closing: (() => Promise<void>)[] = []
beforeEach(async () => {
  server = await mailHouse()
  closing = [() => server.close()]
})
afterEach(async () => {
  for (const close of closing) await close()
})
const by = (port: number): Transports => transportsFrom({ SMTP_URL: `smtp://127.0.0.1:${port}` } as never)
const outbox = () => read((tx) => tx.outbox.findFirstOrThrow())
const seconds = (n: number) => at(32 + n / 3600)

/** A reminder in the outbox, at hour 32. */
async function aReminder() {
  const { patientId, drains } = await person()
  await log(patientId, drains[0] ?? '', 9)
  await giveReminders(at(32))
  return outbox()
}
const pressing = {
  clinicId: 'c',
  patientId: 'p1',
  kind: 'pressing-flags',
  body: { flags: [{ code: 'drain-out', urgency: 'at-once', actBy: at(32).toISOString() }] },
}

describe('a mail server', () => {
  it('that is well gets the reminder, with what mail programs need to stop it', async () => {
    const { id } = await aReminder()
    expect(await deliver(by(server.port), house, seconds(1))).toEqual({ sent: 1, errors: [] })
    const [mail = ''] = server.arrived
    expect(mail).toContain(`Message-ID: <${id}@outflow-round>`)
    expect(mail).toMatch(/^List-Unsubscribe: <https:\/\/round\.example\/api\/stop\?t=[\w.-]+>\r?$/m)
    expect(mail).toMatch(/^List-Unsubscribe-Post: List-Unsubscribe=One-Click\r?$/m)
    expect(mail).toMatch(/^Subject: A message from your clinic\r?$/m)
    expect(mail).toMatch(/^Content-Type: text\/plain; charset=utf-8\r?$/m)
    expect(mail).not.toMatch(/text\/html/)
  })

  it.each(['refuses for now', 'refuses for good', 'drops in the middle'] as const)(
    'that %s is tried again later, and gets the letter once it is well, under the same id',
    async (mood) => {
      const { id } = await aReminder()
      server.mood = mood
      const first = await deliver(by(server.port), house, seconds(0))
      expect([first.sent, first.errors.length]).toEqual([0, 1])
      expect(await deliver(by(server.port), house, seconds(9))).toEqual({ sent: 0, errors: [] })
      expect((await deliver(by(server.port), house, seconds(10))).errors).toHaveLength(1)
      expect(await outbox()).toMatchObject({ attempts: 2, sentAt: null, givenUpAt: null })
      server.mood = 'well'
      expect(await deliver(by(server.port), house, seconds(40))).toEqual({ sent: 1, errors: [] })
      expect(server.arrived.map((text) => /Message-ID: <(.+)@/.exec(text)?.[1])).toEqual([id])
      expect(await outbox()).toMatchObject({ body: '{}', lastError: null })
    },
  )

  it('that is not there is tried again, and gets the letter when it comes back', async () => {
    await aReminder()
    const { port } = server
    await server.close()
    expect((await deliver(by(port), house, seconds(0))).errors).toHaveLength(1)
    server = await mailHouse(port)
    expect(await deliver(by(port), house, seconds(30))).toEqual({ sent: 1, errors: [] })
  })

  it('that hangs keeps a letter for its time alone, and nothing waiting in another lane', async () => {
    const deaf = await deafHouse()
    closing.push(() => deaf.close())
    await aReminder()
    await write((tx) => addLetter(tx, pressing, at(32)))
    const { sent, transports } = memory()
    const limits = { letterMs: 1500, roundMs: 60_000 }
    const onCall = { ...house, onCall: 'oncall@larkfield.example' }
    const hanging = deliverLane('mail', by(deaf.port), onCall, seconds(0), limits)
    expect(await deliverLane('pressing', transports, onCall, seconds(0))).toEqual({ sent: 1, errors: [] })
    expect(sent).toMatchObject([{ to: 'oncall@larkfield.example' }])
    const { errors } = await hanging
    expect(errors).toMatchObject([{ error: { message: 'no answer within 2 s' } }])
    expect(await deliver(by(server.port), house, seconds(30))).toEqual({ sent: 1, errors: [] })
  })

  it('that hangs does not keep a round for ever', async () => {
    const deaf = await deafHouse()
    closing.push(() => deaf.close())
    const reset = { to: 'a@b.example', name: 'A', link: 'https://round.example/x' }
    for (let i = 0; i < 6; i++)
      await write((tx) =>
        addLetter(tx, { clinicId: 'c', patientId: null, kind: 'reset-password', body: reset }, at(32)),
      )
    const { errors } = await deliver(by(deaf.port), house, seconds(0), { letterMs: 400, roundMs: 900 })
    expect(errors.length).toBeLessThan(6)
    expect(await read((tx) => tx.outbox.count({ where: { attempts: 0 } }))).toBe(6 - errors.length)
  })
})

it('a process that dies between sending and noting sends again, under the same id', async () => {
  const { id } = await aReminder()
  await closeStore()
  const program = fileURLToPath(new URL('./mailer.ts', import.meta.url))
  const root = fileURLToPath(new URL('../..', import.meta.url))
  const child = spawn(process.execPath, ['--import', 'tsx', program, seconds(1).toISOString()], {
    cwd: root,
    env: {
      ...process.env,
      DATABASE_URL: `file:${database.file}`,
      SMTP_URL: `smtp://127.0.0.1:${server.port}`,
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  // The child says when the server has taken its letter, and then waits to be killed before it may note so.
  await once(child.stdout, 'data')
  child.kill('SIGKILL')
  await once(child, 'close')
  expect(server.arrived).toHaveLength(1)
  expect(await outbox()).toMatchObject({ sentAt: null, attempts: 0 })

  expect(await deliver(by(server.port), house, seconds(2))).toEqual({ sent: 0, errors: [] }) // the dead one's lease
  expect(await deliver(by(server.port), house, seconds(200))).toEqual({ sent: 1, errors: [] })
  expect(server.arrived.map((text) => /Message-ID: <(.+)@/.exec(text)?.[1])).toEqual([id, id])
}, 60_000)
