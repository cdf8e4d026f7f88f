import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach } from 'vitest'
import { closeSignInClient, closeStore } from '../../lib/store/index.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const migrations = path.join(root, 'prisma/migrations')

/** A database with all migrations, made once per state of them and kept between runs. */
function template(): string {
  const hash = createHash('sha256')
  for (const name of readdirSync(migrations).sort()) {
    const file = path.join(migrations, name, 'migration.sql')
    if (existsSync(file)) hash.update(name).update(readFileSync(file))
  }
  const folder = path.join(root, '.cache/test-databases')
  const file = path.join(folder, `${hash.digest('hex').slice(0, 16)}.db`)
  if (existsSync(file)) return file
  mkdirSync(folder, { recursive: true })
  const making = `${file}.${process.pid}`
  rmSync(making, { force: true })
  execFileSync('npx', ['prisma', 'migrate', 'deploy', '--config', 'prisma/prisma.config.ts'], {
    cwd: root,
    env: { ...process.env, DATABASE_URL: `file:${making}` },
    stdio: 'pipe',
  })
  renameSync(making, file)
  return file
}

/** A real SQLite file of its own for each test, and the store open on it. Gives where it lies. */
export function databasePerTest(): { readonly file: string; readonly folder: string } {
  const place = { file: '', folder: '' }
  let before: string | undefined
  beforeEach(() => {
    before = process.env.DATABASE_URL
    place.folder = mkdtempSync(path.join(tmpdir(), 'store-'))
    place.file = path.join(place.folder, 'test.db')
    copyFileSync(template(), place.file)
    process.env.DATABASE_URL = `file:${place.file}`
  })
  afterEach(async () => {
    await closeSignInClient()
    await closeStore()
    if (before === undefined) delete process.env.DATABASE_URL
    else process.env.DATABASE_URL = before
    rmSync(place.folder, { recursive: true, force: true })
  })
  return place
}
