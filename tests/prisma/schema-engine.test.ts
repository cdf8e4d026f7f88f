import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))
const cli = path.join(root, 'node_modules/prisma/build/index.js')
const engine = path.join(root, 'prisma/schema-engine.mjs')

let folder: string
let database: string

function prisma(config: string, ...args: string[]) {
  const env = {
    ...process.env,
    DATABASE_URL: `file:${database}`,
    PRISMA_SCHEMA_ENGINE_BINARY: engine,
    NO_COLOR: '1',
  }
  const { status, stdout, stderr } = spawnSync(process.execPath, [cli, ...args, '--config', config], {
    env,
    cwd: folder,
    encoding: 'utf8',
  })
  return { status, said: stdout + stderr }
}

function tables(): string[] {
  const db = new Database(database, { readonly: true })
  const rows = db.prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").pluck().all()
  db.close()
  return rows as string[]
}

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'engine-'))
  database = path.join(folder, 'test.db')
})
afterEach(() => rmSync(folder, { recursive: true }))

describe('a schema of its own', () => {
  const config = () => path.join(folder, 'prisma.config.mjs')
  const migration = (name: string, sql: string) => {
    mkdirSync(path.join(folder, 'migrations', name), { recursive: true })
    writeFileSync(path.join(folder, 'migrations', name, 'migration.sql'), sql)
  }

  beforeEach(() => {
    const settings = {
      schema: 'schema.prisma',
      migrations: { path: 'migrations' },
      datasource: { url: `file:${database}` },
    }
    writeFileSync(config(), `export default ${JSON.stringify(settings)}`)
    writeFileSync(
      path.join(folder, 'schema.prisma'),
      'datasource db {\n  provider = "sqlite"\n}\nmodel Person {\n  id   String @id\n  name String\n}\n',
    )
    migration('1_first', 'CREATE TABLE "Person" ("id" TEXT NOT NULL PRIMARY KEY, "name" TEXT NOT NULL);')
  })

  it('is deployed to a database that does not exist yet; a second deploy changes nothing', () => {
    expect(prisma(config(), 'migrate', 'deploy')).toMatchObject({ status: 0 })
    expect(tables()).toEqual(['Person', '_prisma_migrations'])

    const db = new Database(database)
    db.prepare('INSERT INTO Person VALUES (?, ?)').run('p1', 'Ada Larkfield')
    db.close()
    const again = prisma(config(), 'migrate', 'deploy')
    expect(again.status).toBe(0)
    expect(again.said).toContain('No pending migrations to apply')
    const after = new Database(database, { readonly: true })
    expect(after.prepare('SELECT name FROM Person').pluck().all()).toEqual(['Ada Larkfield'])
    after.close()
  })

  it('takes a later migration up, several statements in one file', () => {
    prisma(config(), 'migrate', 'deploy')
    migration(
      '2_second',
      'ALTER TABLE "Person" ADD COLUMN "note" TEXT;\nCREATE INDEX "by_name" ON "Person"("name");',
    )
    expect(prisma(config(), 'migrate', 'deploy').said).toContain('2_second')
    expect(prisma(config(), 'migrate', 'status').said).toContain('up to date')
  })

  it('reports a migration that fails, in words, and fails itself', () => {
    migration('2_broken', 'CREATE TABLE "Person" ("id" TEXT);')
    const { status, said } = prisma(config(), 'migrate', 'deploy')
    expect(status).toBe(1)
    expect(said).toContain('table "Person" already exists')
  })

  it('leaves nothing beside the database file', async () => {
    prisma(config(), 'migrate', 'deploy')
    // The CLI does not wait for its engine's end.
    await expect
      .poll(() => readdirSync(folder).filter((name) => name.startsWith('test.db')))
      .toEqual(['test.db'])
  })
})

it('the migrations of this repository make exactly what its schema says', () => {
  const config = path.join(root, 'prisma/prisma.config.ts')
  expect(prisma(config, 'migrate', 'deploy')).toMatchObject({ status: 0 })
  const schema = path.join(root, 'prisma/schema.prisma')
  const compare = ['--from-config-datasource', '--to-schema', schema, '--exit-code']
  expect(prisma(config, 'migrate', 'diff', ...compare)).toMatchObject({ status: 0 })
})
