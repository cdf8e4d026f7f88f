import { execFile } from 'node:child_process'
import { copyFileSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { beforeEach, describe, expect, it } from 'vitest'
import { backupCommands } from '../../lib/commands/admin/backup.ts'
import { databaseFaults } from '../../lib/store/check.ts'
import { closeStore, read, write } from '../../lib/store/index.ts'
import { log, person } from '../notify/person.ts'
import { openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const database = databasePerTest()
beforeEach(openClinics)

function admin(...args: string[]): Promise<{ code: number; said: string }> {
  const command = ['node_modules/tsx/dist/cli.mjs', 'lib/commands/admin.ts', ...args]
  const env = { ...process.env, DATABASE_URL: `file:${database.file}` }
  return new Promise((resolve) =>
    execFile(process.execPath, command, { cwd: root, env }, (error, out, err) =>
      resolve({ code: error ? Number(error.code) : 0, said: out + err }),
    ),
  )
}
const { backup, restore } = backupCommands
const said = async (outcome: Promise<{ lines: string[] }>) => (await outcome).lines.join('\n')
const reports = () => read((tx) => tx.report.count())
const inFolder = () =>
  readdirSync(database.folder)
    .filter((name) => !/^test\.db-/.test(name))
    .sort()
const inside = (name: string) => path.join(database.folder, name)

describe('a backup', () => {
  it('is taken by another process while reports come in, is whole, and brings everything back', async () => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    const FILE = inside('kept.db')
    let isCopying = true
    const writing = (async () => {
      for (let hour = 10; isCopying; hour++) {
        await log(patientId, drains[0] ?? '', hour)
        await setTimeout(20) // lets the news of the copy in
      }
    })()
    const copied = await admin('backup', FILE)
    isCopying = false
    await writing
    expect(copied).toEqual({ code: 0, said: expect.stringContaining('whole') })
    expect(inFolder()).toEqual(['kept.db', 'test.db'])
    expect(statSync(FILE).mode & 0o777).toBe(0o600)
    const afterwards = await reports()

    // This process has the database open, as a server has.
    expect(await admin('restore', FILE, '--replace')).toMatchObject({
      code: 2,
      said: expect.stringContaining('is in use. Stop the server first'),
    })
    expect(await reports()).toBe(afterwards)
    await closeStore()
    await expect(restore.run({ FILE })).rejects.toThrow(/with --replace/)

    expect(await said(restore.run({ FILE, replace: 'yes' }))).toContain('is kept in')
    const kept = inFolder().find((name) => name.startsWith('test.db.before-')) ?? ''
    expect(kept).toMatch(/^test\.db\.before-\d{8}T\d{6}Z$/)
    const then = await reports()
    expect(then).toBeGreaterThan(0)
    expect(then).toBeLessThan(afterwards)
    expect(await read(databaseFaults)).toEqual([])

    // And back again, to what was there before.
    await closeStore()
    await restore.run({ FILE: inside(kept), replace: 'yes' })
    expect(await reports()).toBe(afterwards)
  }, 120_000)

  it('writes over nothing', async () => {
    const FILE = inside('kept.db')
    writeFileSync(FILE, 'something else')
    await expect(backup.run({ FILE })).rejects.toThrow(/accepted: a new file/)
    expect(readFileSync(FILE, 'utf8')).toBe('something else')
  })

  it('fills a place where no database is', async () => {
    await person()
    const FILE = inside('kept.db')
    await backup.run({ FILE })
    await closeStore()
    process.env.DATABASE_URL = `file:${inside('a new folder/moved.db')}`
    expect(await said(restore.run({ FILE }))).not.toContain('is kept in')
    expect(await read((tx) => tx.patient.count())).toBe(1)
  })

  it('that is damaged, or whose access record was touched, is not made or put in place', async () => {
    await person()
    const [good, torn] = [inside('good.db'), inside('torn.db')]
    await backup.run({ FILE: good })
    copyFileSync(good, torn)
    const bytes = readFileSync(torn)
    bytes.fill(0xff, 8192, 40_960)
    writeFileSync(torn, bytes)
    await write((tx) => tx.$executeRaw`UPDATE "AccessRecord" SET "what" = 'nothing of note'`)
    await expect(backup.run({ FILE: inside('touched.db') })).rejects.toThrow(/access record/)
    await closeStore()
    await expect(restore.run({ FILE: torn, replace: 'yes' })).rejects.toThrow(/not sound/)
    await expect(restore.run({ FILE: inside('none.db'), replace: 'yes' })).rejects.toThrow(/no file/)
    expect(inFolder()).toEqual(['good.db', 'test.db', 'torn.db'])
    expect(await read((tx) => tx.patient.count())).toBe(1)
  })
})

it('backup without a file is answered with what is accepted', async () => {
  expect(await admin('backup')).toMatchObject({
    code: 2,
    said: expect.stringContaining('accepted: one FILE'),
  })
}, 60_000)
