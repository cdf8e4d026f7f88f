import { spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { afterEach, beforeEach, expect, it } from 'vitest'

// What stops `npm start` before it begins: one clear line each, no stack, exit 1.

const root = fileURLToPath(new URL('../..', import.meta.url))
let folder: string

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'start-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

function start(env: Record<string, string>, command = 'start.mjs', node: string[] = []) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [...node, path.join(root, 'lib/commands', command)],
    {
      env: { ...process.env, DATABASE_URL: `file:${folder}/outflow.db`, ...env },
      encoding: 'utf8',
      timeout: 15_000,
    },
  )
  return { status, stdout, stderr }
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const address = probe.address()
  await new Promise((done) => probe.close(done))
  return typeof address === 'object' && address ? address.port : 0
}

it('a port in use', async () => {
  const taken = createServer().listen(0, '127.0.0.1')
  await once(taken, 'listening')
  const address = taken.address()
  const port = typeof address === 'object' && address ? address.port : 0
  expect(start({ PORT: String(port) })).toEqual({
    status: 1,
    stdout: '',
    stderr: `Port ${port} is in use: choose another, for example PORT=${port + 1} npm start\n`,
  })
  taken.close()
})

it('a port that is no port', () => {
  expect(start({ PORT: '70000' })).toEqual({
    status: 1,
    stdout: '',
    stderr: "PORT is '70000': a number from 1 to 65535 is needed.\n",
  })
})

it('an address that is not this machine', async () => {
  const refused = start({ PORT: String(await freePort()), HOST: '203.0.113.7' })
  expect(refused).toMatchObject({ status: 1, stdout: '' })
  expect(refused.stderr).toMatch(/^Cannot serve on 203\.0\.113\.7, port \d+ \(EADDRNOTAVAIL\): .*\n$/)
})

it('a data folder that cannot be written to', async () => {
  writeFileSync(path.join(folder, 'in-the-way'), '')
  const PORT = String(await freePort())
  for (const place of [`${folder}/in-the-way`, '/proc/outflow']) {
    const refused = start({ PORT, DATABASE_URL: `file:${place}/outflow.db` })
    expect(refused).toMatchObject({ status: 1, stdout: '' })
    expect(refused.stderr).toMatch(/^The data folder .* cannot be written to \(E\w+\): .*\n$/)
  }
})

it.each(['start.mjs', 'test.mjs'])('a Node that is too old: %s', (command) => {
  const older = path.join(folder, 'older.mjs')
  writeFileSync(older, "Object.defineProperty(process.versions, 'node', { value: '20.18.3' })")
  expect(start({}, command, ['--import', pathToFileURL(older).href])).toEqual({
    status: 1,
    stdout: '',
    stderr: 'Node 20.19 or newer is needed, and this is 20.18.3: see https://nodejs.org\n',
  })
})
