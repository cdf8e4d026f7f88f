import { execFile } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { write } from '../../lib/store/index.ts'
import { databasePerTest } from '../store/database.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const database = databasePerTest()

function admin(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  const command = ['node_modules/tsx/dist/cli.mjs', 'lib/commands/admin.ts', ...args]
  const env = { ...process.env, DATABASE_URL: `file:${database.file}`, OUTFLOW_URL: 'https://round.example' }
  return new Promise((resolve) =>
    execFile(process.execPath, command, { cwd: root, env }, (error, out, err) =>
      resolve({ code: error ? Number(error.code) : 0, out, err }),
    ),
  )
}

it('takes an empty database to people who can sign in, and shows when its record was touched', async () => {
  const person = ['--email', 'Nora@Larkfield.example', '--name', 'Nora Invented', '--role', 'nurse']
  const clinic = [
    '--name',
    'Larkfield clinic (invented)',
    '--zone',
    'America/Denver',
    '--phone',
    '+1 555 0100',
  ]
  expect(await admin('create-staff', ...person)).toMatchObject({
    code: 2,
    err: expect.stringContaining('npm run admin -- create-clinic'),
  })
  expect((await admin('create-clinic', ...clinic)).code).toBe(0)
  expect(await admin('create-staff', ...person)).toMatchObject({
    code: 0,
    out: expect.stringMatching(/https:\/\/round\.example\/reset-password#[\w-]{43}\n$/),
  })
  expect(await admin('create-system', '--name', 'ward system')).toMatchObject({
    code: 0,
    out: expect.stringMatching(/kept nowhere: [\w-]{43}\n/),
  })
  expect((await admin('set-role', '--email', 'nora@larkfield.example', '--role', 'physician')).code).toBe(0)
  expect((await admin('disable-staff', '--email', 'nora@larkfield.example')).code).toBe(0)
  expect((await admin('list-staff')).out).toContain(
    'nora@larkfield.example\tphysician\tNora Invented\tdisabled',
  )
  expect(await admin('check')).toMatchObject({ code: 0, out: expect.stringContaining('database: whole') })
  await write((tx) => tx.$executeRaw`DELETE FROM "AccessRecord" WHERE "seq" = 2`)
  expect(await admin('verify')).toMatchObject({
    code: 1,
    out: expect.stringContaining('BROKEN, row 2 is missing'),
  })
}, 180_000)

it.each([
  [[], 'usage:'],
  [['dance'], 'usage:'],
  [['create-staff', '--email', 'a@b.example'], 'missing: --name, --role'],
  [['list-staff', '--loud', 'yes'], '--loud'],
  [['create-clinic', '--name', 'A', '--zone', 'Denver', '--phone', '1'], 'IANA'],
])('%j is answered with what is accepted, in words', async (args, words) => {
  const { code, err } = await admin(...args)
  expect([code, err.includes(words), /^\s+at /m.test(err)]).toEqual([2, true, false])
})
