import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { nextCli } from '../../lib/commands/setup/build.mjs'
import { root } from '../../lib/commands/setup/root.mjs'
import { type Beginning, beginning } from './beginning.ts'

export type Server = {
  origin: string
  /** The data folder: outflow.db, and demo.json where the demo scenario was loaded. */
  folder: string
  /** Moves the server's clock; offsets add up. */
  moveClock(byMs: number): void
  /** The statements that the store has sent to the database so far, one a line. */
  queries(): string[]
  stop(): Promise<void>
}

/** The built server with a database, a clock and a port of its own. */
export async function startServer(data: Beginning): Promise<Server> {
  const folder = mkdtempSync(path.join(tmpdir(), 'outflow-e2e-'))
  cpSync(await beginning(data), folder, { recursive: true })
  const clockFile = path.join(folder, 'clock-offset-ms')
  const queryLog = path.join(folder, 'queries.log')
  const port = await freePort()
  const origin = `http://127.0.0.1:${port}`
  const child = spawn(process.execPath, [nextCli, 'start', '-H', '127.0.0.1', '-p', String(port)], {
    cwd: root,
    env: {
      ...process.env,
      NODE_ENV: 'production',
      DATABASE_URL: `file:${path.join(folder, 'outflow.db')}`,
      PORT: String(port),
      OUTFLOW_TEST_MODE: '1',
      OUTFLOW_CLOCK_FILE: clockFile,
      OUTFLOW_QUERY_LOG: queryLog,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  await healthy(child, origin)
  let offsetMs = 0
  return {
    origin,
    folder,
    moveClock(byMs) {
      offsetMs += byMs
      writeFileSync(clockFile, String(offsetMs))
    },
    queries: () => (existsSync(queryLog) ? readFileSync(queryLog, 'utf8').split('\n').filter(Boolean) : []),
    async stop() {
      await end(child)
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

async function healthy(child: ChildProcess, origin: string): Promise<void> {
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (text) => (said += text))
  for (let tries = 0; tries < 300 && child.exitCode === null; tries++) {
    const health = await fetch(`${origin}/api/health`).catch(() => null)
    if (health?.ok) return
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  await end(child)
  throw new Error(`the server did not come up:\n${said}`)
}

async function end(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const late = setTimeout(() => child.kill('SIGKILL'), 5000)
  const gone = once(child, 'exit')
  child.kill('SIGTERM')
  await gone
  clearTimeout(late)
}

/** A port that nothing listens on at this moment. */
export async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const address = probe.address()
  probe.close()
  await once(probe, 'close')
  if (address === null || typeof address === 'string') throw new Error('no port')
  return address.port
}
