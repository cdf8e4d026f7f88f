import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { build, nextCli } from '../setup/build.mjs'
import { demoIn } from '../setup/demo.mjs'
import { migrate } from '../setup/prisma.mjs'
import { endAll, run, start } from '../setup/processes.mjs'
import { root } from '../setup/root.mjs'

export type OwnServer = {
  /** The whole address of an invented patient's personal link. */
  link: string
  origin: string
  /** The address and password of the demo scenario's member of staff with a role. */
  signIn(role: string): { email: string; password: string }
  stop(): Promise<void>
}

/**
 * The built server with the demo scenario, in a folder of its own that goes with it. `fill` may add to the
 * database before anybody serves from it.
 */
export async function ownServer(fill?: (databaseUrl: string) => Promise<void>): Promise<OwnServer> {
  const dist = process.env.NEXT_DIST_DIR ?? '.next-test'
  const built = await build(dist)
  if (!built.ok) throw new Error(`the build failed:\n${built.said}`)

  const folder = mkdtempSync(path.join(tmpdir(), 'outflow-bench-'))
  const env = { DATABASE_URL: `file:${path.join(folder, 'outflow.db')}` }
  await migrate(env)
  const tsx = path.join(root, 'node_modules/tsx/dist/cli.mjs')
  const loaded = await run([process.execPath, tsx, 'lib/commands/load-demo.ts'], { env })
  const demo = demoIn(folder)
  if (!loaded.ok || !demo) throw new Error(`the demo scenario could not be loaded:\n${loaded.said}`)

  await fill?.(env.DATABASE_URL)

  const port = await freePort()
  const origin = `http://127.0.0.1:${port}`
  start([process.execPath, nextCli, 'start', '-H', '127.0.0.1', '-p', String(port)], {
    env: { ...env, PORT: String(port), NEXT_DIST_DIR: dist, NODE_ENV: 'production' },
    output: 'keep',
  })
  await untilHealthy(origin)
  return {
    link: new URL(demo.patientLink, origin).href,
    origin,
    signIn(role) {
      const found = demo.signIns.find((signIn) => signIn.role === role)
      if (!found) throw new Error(`the demo scenario has no ${role}`)
      return found
    },
    async stop() {
      await endAll()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

async function untilHealthy(origin: string): Promise<void> {
  for (let tries = 0; tries < 300; tries++) {
    const health = await fetch(`${origin}/api/health`).catch(() => null)
    if (health?.ok) return
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  await endAll()
  throw new Error('the server did not come up')
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const address = probe.address()
      probe.close(() =>
        address && typeof address === 'object' ? resolve(address.port) : reject(new Error('no port')),
      )
    })
  })
}
