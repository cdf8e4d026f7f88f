import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { expect, test } from '@playwright/test'
import { freePort } from './support/server.ts'

// `npm start` itself, on the screens that were built for these tests and with data of its own.

let port: number
let origin: string
let folder: string
let command: ChildProcess | null = null

function startCommand() {
  const child = spawn(process.execPath, ['lib/commands/start.mjs'], {
    env: { ...process.env, PORT: String(port), DEMO: 'off', DATABASE_URL: `file:${folder}/data/outflow.db` },
  })
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text))
  command = child
  return { child, said: () => said }
}

test.beforeEach(async () => {
  port = await freePort()
  origin = `http://127.0.0.1:${port}`
  folder = mkdtempSync(path.join(tmpdir(), 'outflow-start-'))
})
test.afterEach(async () => {
  if (command && command.exitCode === null && command.kill('SIGTERM')) await once(command, 'exit')
  rmSync(folder, { recursive: true, force: true })
})

test('DEMO=off: an empty clinic is served, the first step is told, and an interrupt ends all of it', async () => {
  const { child, said } = startCommand()
  await expect.poll(said, { timeout: 30_000 }).toContain(`The worklist is at ${origin}`)
  expect(said()).toContain('npm run admin -- create-staff')
  expect((await fetch(`${origin}/api/health`)).status).toBe(200)
  expect(existsSync(path.join(folder, 'data/outflow.db'))).toBe(true)

  await test.step('a second start on the same port is refused in one line', async () => {
    const second = startCommand()
    const [code] = await once(second.child, 'exit')
    expect({ code, said: second.said() }).toEqual({
      code: 1,
      said: `Port ${port} is in use: choose another, for example PORT=${port + 1} npm start\n`,
    })
  })

  child.kill('SIGINT')
  await once(child, 'exit')
  await expect(fetch(`${origin}/api/health`)).rejects.toThrow()
})

test('a second start on the same data is quick', async () => {
  for (const first of [true, false]) {
    const { child, said } = startCommand()
    await expect.poll(said, { timeout: 30_000 }).toContain('The worklist is at')
    if (!first) expect(Number(/ready after ([\d.]+) s/.exec(said())?.[1])).toBeLessThan(15)
    child.kill('SIGINT')
    await once(child, 'exit')
  }
})
