import { execFileSync } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import path from 'node:path'
import { root } from '../lib/commands/setup/root.mjs'
import { type Answer, checkInDoor, post, type Send } from './support/doors.ts'
import { enrolPerson } from './support/person.ts'
import type { Server } from './support/server.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// A report that is sent again, by a phone that lost the answer or a system that tries in parallel, is one report.

const AT_ONCE = 20

/** The door of a sending system that has just been admitted. */
function systemDoor({ origin, folder }: Server, name: string): Send {
  const tsx = path.join(root, 'node_modules/tsx/dist/cli.mjs')
  const said = execFileSync(
    process.execPath,
    [tsx, 'lib/commands/admin.ts', 'create-system', '--name', name],
    {
      cwd: root,
      env: { ...process.env, DATABASE_URL: `file:${path.join(folder, 'outflow.db')}` },
      encoding: 'utf8',
    },
  )
  const key = /kept nowhere: (\S+)/.exec(said)?.[1]
  if (!key) throw new Error(`no key in: ${said}`)
  return (body, idempotencyKey) =>
    post(`${origin}/api/reports`, body, { Authorization: `Bearer ${key}`, 'Idempotency-Key': idempotencyKey })
}

const reading = (drain: string, volumeMl: number) => ({
  readings: [{ drain, at: new Date().toISOString(), volumeMl }],
})

const times = <T>(count: number, make: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => make(i))

function expectOneReceipt(answers: Answer[]) {
  expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 200))
  expect(new Set(answers.map(({ body }) => JSON.stringify(body))).size, 'receipts').toBe(1)
  expect(answers[0]?.body.receipt).toMatch(/^[2-9A-Z]{4}-[2-9A-Z]{4}$/)
}

const keyReused = {
  status: 422,
  type: expect.stringMatching(/^application\/problem\+json\b/),
  body: expect.objectContaining({
    type: 'urn:outflow-round:problem:key-reused',
    status: 422,
    detail: expect.stringContaining('another report'),
  }),
}

test('sent twice, then twenty times at once: one report, one receipt, one entry on the patient’s page', async ({
  page,
  server,
}) => {
  const person = await enrolPerson(server, 'Orla Venn-Castell (invented)')
  const { send, drain } = await checkInDoor(server, person)
  const twice = reading(drain, 380)
  const twiceKey = randomUUID()
  expectOneReceipt([await send(twice, twiceKey), await send(twice, twiceKey)])
  expect(await person.reports()).toHaveLength(1)

  const many = reading(drain, 410)
  const manyKey = randomUUID()
  expectOneReceipt(await Promise.all(times(AT_ONCE, () => send(many, manyKey))))
  expect((await person.reports()).map(({ readings }) => readings?.map(({ volumeMl }) => volumeMl))).toEqual([
    [380],
    [410],
  ])

  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${person.patientId}`)
  const entries = page.getByRole('region', { name: 'Reports' }).getByRole('article')
  await expect(entries).toHaveCount(2)
  await expect(entries.filter({ hasText: '410 mL' })).toHaveCount(1)
})

test('another body under the same key is refused, also when both come at once', async ({ server }) => {
  const person = await enrolPerson(server, 'Leopold Quayle-Astor (invented)')
  const { send, drain } = await checkInDoor(server, person)
  const key = randomUUID()
  const first = reading(drain, 390)
  const answer = await send(first, key)
  expectOneReceipt([answer])
  expect(await send(reading(drain, 120), key)).toEqual(keyReused)
  expect(await send(first, key), 'the first one stands').toEqual(answer)
  expect(await person.reports()).toHaveLength(1)

  const raceKey = randomUUID()
  const [a, b] = [reading(drain, 300), reading(drain, 310)]
  const answers = await Promise.all(times(AT_ONCE, (i) => send(i % 2 === 0 ? a : b, raceKey)))
  const kept = answers[0]?.status === 200 ? 0 : 1
  expectOneReceipt(answers.filter((_, i) => i % 2 === kept))
  for (const other of answers.filter((_, i) => i % 2 !== kept)) expect(other).toEqual(keyReused)
  expect(await person.reports()).toHaveLength(2)
})

test('a sending system that repeats itself is heard once', async ({ server }) => {
  const person = await enrolPerson(server, 'Vesna Holt-Imrie (invented)')
  const { drain } = await checkInDoor(server, person)
  const send = systemDoor(server, 'bedside scale (invented)')
  const report = { patient: person.patientId, ...reading(drain, 405) }
  const key = randomUUID()
  const answers = await Promise.all(times(AT_ONCE, () => send(report, key)))
  expectOneReceipt([...answers, await send(report, key)])
  expect(await send({ ...report, ...reading(drain, 90) }, key)).toEqual(keyReused)
  expect(await person.reports()).toHaveLength(1)
})
