import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs'
import path from 'node:path'
import { loadDemo } from '../../lib/commands/setup/demo.mjs'
import { migrate } from '../../lib/commands/setup/prisma.mjs'

/** What a server's database holds at the start: nothing, or the demo scenario. */
export type Beginning = 'empty' | 'demo'

/** The data folder to copy for a server; made once before all journeys (prepare.ts), and kept for the whole run. */
export async function beginning(name: Beginning): Promise<string> {
  const folder = path.join(process.env.OUTFLOW_E2E_BEGINNINGS ?? '', name)
  if (existsSync(folder)) return folder
  const making = `${folder}-making`
  rmSync(making, { recursive: true, force: true })
  mkdirSync(making)
  const env = { DATABASE_URL: `file:${path.join(making, 'outflow.db')}` }
  await migrate(env)
  if (name === 'demo') await loadDemo(making, env)
  renameSync(making, folder)
  return folder
}
