import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { now } from '../../../lib/clock.ts'
import { findBrowser } from '../../../lib/commands/setup/browser.mjs'
import { prepareDataFolder } from '../../../lib/commands/setup/data-folder.mjs'
import { offerToday } from '../../../lib/commands/setup/demo.mjs'
import { requireNode } from '../../../lib/commands/setup/node-version.mjs'
import { packagesAreCurrent } from '../../../lib/commands/setup/packages.mjs'
import { run } from '../../../lib/commands/setup/processes.mjs'
import { addressOf } from '../../../lib/commands/setup/server.mjs'
import { playwrightCounts, vitestCounts } from '../../../lib/commands/setup/test-counts.mjs'
import { welcome } from '../../../lib/commands/setup/welcome.mjs'

let folder: string
const file = (name: string, content: unknown) => {
  const full = path.join(folder, name)
  mkdirSync(path.dirname(full), { recursive: true })
  writeFileSync(full, typeof content === 'string' ? content : JSON.stringify(content))
  return full
}

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'setup-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

describe('packages are installed again when', () => {
  const locked = {
    '': { name: 'house' },
    'node_modules/a': { version: '1.2.3' },
    'node_modules/only-elsewhere': { version: '1.0.0', optional: true },
  }
  it.each([
    ['node_modules is missing', null, false],
    ['a version differs', { 'node_modules/a': { version: '1.2.2' } }, false],
    ['a package is missing', {}, false],
    ['(they are not, when all are there)', { 'node_modules/a': { version: '1.2.3' } }, true],
  ])('%s', (_, installed, current) => {
    file('package-lock.json', { packages: locked })
    if (installed) file('node_modules/.package-lock.json', { packages: installed })
    expect(packagesAreCurrent(folder)).toBe(current)
  })
})

describe('Node', () => {
  it.each(['20.19.0', '20.20.2', '22.12.0', '24.0.0', '100.0.0'])('%s will do', (version) => {
    expect(() => requireNode(version)).not.toThrow()
  })
  it.each(['20.18.9', '18.20.4', '9.0.0'])('%s will not', (version) => {
    expect(() => requireNode(version)).toThrow(`this is ${version}`)
  })
})

describe('the data folder', () => {
  it('is made where the database is to lie', () => {
    const made = prepareDataFolder({ ...process.env, DATABASE_URL: `file:${folder}/a/b/outflow.db?x=1` })
    expect(made).toBe(path.join(folder, 'a/b'))
    expect(existsSync(made)).toBe(true)
  })
})

describe('the browser', () => {
  it('is the one that is named, if it can be run', () => {
    vi.stubEnv('OUTFLOW_BROWSER', process.execPath)
    expect(findBrowser()).toBe(process.execPath)
    vi.stubEnv('OUTFLOW_BROWSER', path.join(folder, 'none'))
    expect(findBrowser()).toBeNull()
  })
})

describe('the address', () => {
  it.each([
    [{}, 'http://127.0.0.1:3000'],
    [{ PORT: '8080', HOST: '0.0.0.0' }, 'http://localhost:8080'],
    [{ HOST: '::1' }, 'http://[::1]:3000'],
  ])('of %o', (env, url) => {
    expect(addressOf({ ...env, NODE_ENV: 'test' }).url).toBe(url)
  })
})

describe('counts', () => {
  it('of Vitest and Playwright are taken from their reports', () => {
    vi.spyOn(console, 'log').mockReturnValue()
    const unit = file('v.json', { numPassedTests: 7, numFailedTests: 2, numPendingTests: 1, numTodoTests: 1 })
    expect(vitestCounts(unit, false, folder)).toEqual({ passed: 7, failed: 2, skipped: 2 })
    const e2e = file('p.json', { stats: { expected: 3, unexpected: 1, flaky: 1, skipped: 4 } })
    expect(playwrightCounts(e2e, false)).toEqual({ passed: 3, failed: 2, skipped: 4 })
  })

  it('never hide a run that ended badly', () => {
    expect(playwrightCounts(path.join(folder, 'none.json'), false)).toEqual({
      passed: 0,
      failed: 1,
      skipped: 0,
    })
    const unloaded = file('v.json', { numPassedTests: 7, numFailedTests: 0 })
    expect(vitestCounts(unloaded, false, folder)).toMatchObject({ passed: 7, failed: 1 })
  })
})

describe('a program that was run', () => {
  it('hands back what it said and how it ended', async () => {
    const said = await run([process.execPath, '-e', 'console.log(1); console.error(2); process.exit(3)'])
    expect(said).toMatchObject({ ok: false })
    expect(said.said.split('\n').filter(Boolean).sort()).toEqual(['1', '2'])
    expect(await run(['/nowhere/to/be/found'])).toMatchObject({ ok: false })
  })

  it('leaves nothing that it started behind', async () => {
    const pidFile = path.join(folder, 'pid')
    const child = `require('fs').writeFileSync(${JSON.stringify(pidFile)}, String(process.pid)); setInterval(() => {}, 1000)`
    const parent =
      `require('child_process').spawn(process.execPath, ['-e', ${JSON.stringify(child)}], { stdio: 'ignore' }).unref();` +
      `setTimeout(() => process.exit(0), 500)`
    expect(await run([process.execPath, '-e', parent])).toMatchObject({ ok: true })
    const pid = Number(readFileSync(pidFile, 'utf8'))
    await expect.poll(() => isAlive(pid)).toBe(false)
  })

  it('is stopped when it takes too long', async () => {
    const { ok, said } = await run([process.execPath, '-e', 'setInterval(() => {}, 1000)'], { minutes: 0.01 })
    expect(ok).toBe(false)
    expect(said).toContain('not done after 0.01 minutes')
  })
})

/** Whether the process runs; one that has ended and only waits to be collected does not. */
function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return existsSync(`/proc/${pid}/stat`)
      ? !/\) Z /.test(readFileSync(`/proc/${pid}/stat`, 'utf8'))
      : !existsSync('/proc/self')
  } catch {
    return false
  }
}

describe('what is printed at the end of a start', () => {
  const address = addressOf({ NODE_ENV: 'test' })
  const facts = { address, data: '/data', seconds: 3.2 }

  it('with the demo scenario: the sign-ins and a patient link', () => {
    const signIns = [{ role: 'nurse', name: 'N. N.', email: 'nurse@larkfield.example', password: 'abc' }]
    const text = welcome({
      ...facts,
      demo: { signIns, patientLink: 'http://127.0.0.1:80/check-in#token', endsOn: '2026-03-01' },
    })
    expect(text).toContain('The worklist is at http://127.0.0.1:3000')
    expect(text).toMatch(/nurse +nurse@larkfield\.example +abc/)
    expect(text).toContain('http://127.0.0.1:3000/check-in#token')
  })

  it('without it: how to make the first administrator', () => {
    expect(welcome({ ...facts, demo: null })).toContain('npm run admin -- create-staff')
  })

  it('says when other machines can reach it', () => {
    const open = addressOf({ NODE_ENV: 'test', HOST: '0.0.0.0' })
    expect(welcome({ ...facts, demo: null })).not.toContain('other machines')
    expect(welcome({ ...facts, address: open, demo: null })).toContain('other machines')
  })
})

describe('a demo scenario that has ended', () => {
  const endsOn = (daysAgo: number) =>
    new Date(now().getTime() - daysAgo * 86_400_000).toISOString().slice(0, 10)
  const said = async (daysAgo: number) => {
    const log = vi.spyOn(console, 'log').mockReturnValue()
    await offerToday({ signIns: [], patientLink: '', endsOn: endsOn(daysAgo) })
    return log.mock.calls.flat().join('\n')
  }

  it('is offered a move to today, where nobody can be asked by naming the command', async () => {
    expect(await said(3)).toContain('npm run demo -- --to-today')
  })

  it('is left alone on its own day', async () => {
    expect(await said(0)).toBe('')
  })
})
