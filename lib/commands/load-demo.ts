import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { now } from '../clock.ts'
import { closeSignInClient, closeStore, databaseUrl, read } from '../store/index.ts'
import { loadScenario } from './demo/load.ts'
import { SIGN_INS } from './demo/sign-ins.ts'
import { progressBar } from './evaluate/progress.ts'
import { migrate } from './setup/prisma.mjs'

/**
 * Loads the demo scenario into a database that holds nothing yet; a database that holds anything is left
 * alone. With --to-today a scenario that has ended is loaded anew, ending now, and the old file is kept.
 * The scenario grows in a file of its own that takes the database's place when it is complete: a load that
 * is interrupted leaves nothing behind.
 */
async function main(): Promise<void> {
  const { values } = parseArgs({ options: { 'to-today': { type: 'boolean' } } })
  const file = path.resolve(
    databaseUrl()
      .replace(/^file:/, '')
      .replace(/\?.*$/, ''),
  )
  const notes = path.join(path.dirname(file), 'demo.json')
  const holds = existsSync(file) ? await clinics() : 0
  if (holds > 0 && !values['to-today'])
    return console.error('demo: the database holds a clinic already; nothing was loaded.')
  if (holds > 0 && !existsSync(notes))
    throw new Error('this database is no demo scenario; its dates are left as they are.')

  const growing = `${file}.growing`
  removeDatabase(growing)
  process.env.DATABASE_URL = `file:${growing}`
  await migrate({ DATABASE_URL: `file:${growing}` })
  const loaded = await loadScenario(now(), (total) => progressBar('demo scenario', total))
  await closeAll()
  if (holds > 0) setAside(file, notes)
  removeDatabase(file)
  renameSync(growing, file)
  const signIns = Object.values(SIGN_INS)
  writeFileSync(notes, `${JSON.stringify({ signIns, ...loaded }, null, 2)}\n`, { mode: 0o600 })
}

async function clinics(): Promise<number> {
  const count = await read((tx) => tx.clinic.count())
  await closeAll()
  return count
}

async function closeAll(): Promise<void> {
  await closeStore()
  await closeSignInClient()
}

/** What was entered into the old scenario is kept beside it, under the day on which it ended. */
function setAside(file: string, notes: string): void {
  const { endsOn } = JSON.parse(readFileSync(notes, 'utf8')) as { endsOn: string }
  renameSync(file, `${file.replace(/\.db$/, '')}-demo-to-${endsOn}.db`)
}

function removeDatabase(file: string): void {
  for (const end of ['', '-wal', '-shm', '-journal']) rmSync(`${file}${end}`, { force: true })
}

try {
  await main()
} catch (error) {
  console.error(`demo: ${error instanceof Error ? error.message : String(error)}`)
  process.exitCode = 1
}
