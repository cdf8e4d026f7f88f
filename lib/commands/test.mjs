// `npm test`: everything that CI checks, from a fresh clone with Node alone. Ends with one line that counts
// all of it: `N passed, N failed, N skipped`; lint, types and the build count as one check each.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { ensureBrowser, howToGetOne } from './setup/browser.mjs'
import { build } from './setup/build.mjs'
import { stopwatch } from './setup/clock.mjs'
import { requireNode } from './setup/node-version.mjs'
import { installPackages } from './setup/packages.mjs'
import { generateClient } from './setup/prisma.mjs'
import { endAllWhenInterrupted, run } from './setup/processes.mjs'
import { runCommand } from './setup/refusal.mjs'
import { root } from './setup/root.mjs'
import { noCounts, playwrightCounts, vitestCounts } from './setup/test-counts.mjs'

/** @typedef {import('./setup/test-counts.mjs').Counts} Counts */

const builtInto = '.next-test' // beside the folder that `npm start` serves from

await runCommand(main)

async function main() {
  requireNode()
  const scratch = mkdtempSync(path.join(tmpdir(), 'outflow-test-'))
  const tidy = () => rmSync(scratch, { recursive: true, force: true })
  endAllWhenInterrupted(tidy)
  try {
    await installPackages()
    await generateClient()
    // Fetching a browser mostly waits for the network, so it goes on beside the other checks.
    const browser = ensureBrowser()
    const checks = [
      await check('lint', () =>
        oneCheck(['node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings']),
      ),
      await check('types', () => oneCheck(['node_modules/typescript/bin/tsc', '--noEmit', '-p', '.'])),
      await check('unit, store and published', () => vitest(path.join(scratch, 'vitest.json'))),
      await check('build', buildOnce),
      await check('end to end', async () => playwright(path.join(scratch, 'e2e.json'), await browser)),
    ]
    report(checks)
  } finally {
    tidy()
  }
}

/** @param {string} name @param {() => Promise<Counts>} work */
async function check(name, work) {
  console.log(`\n── ${name}`)
  const seconds = stopwatch()
  const counts = await work()
  const line = `${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`
  console.log(`── ${name}: ${line} (${seconds()} s)`)
  return { name, ...counts }
}

/** @param {string[]} command a program's JavaScript and its arguments */
async function oneCheck(command) {
  const { ok, said } = await run([process.execPath, ...command])
  if (!ok) console.log(said)
  return ok ? { ...noCounts, passed: 1 } : { ...noCounts, failed: 1 }
}

/** @param {string} file */
async function vitest(file) {
  const command = ['node_modules/vitest/vitest.mjs', 'run', '-c', 'tests/vitest.config.ts']
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`]
  const { ok } = await run([process.execPath, ...command, ...reporters], { output: 'show' })
  return vitestCounts(file, ok, root)
}

async function buildOnce() {
  const { ok, said } = await build(builtInto)
  if (!ok) console.log(said)
  return ok ? { ...noCounts, passed: 1 } : { ...noCounts, failed: 1 }
}

/** @param {string} file @param {string | null} browser */
async function playwright(file, browser) {
  if (browser === null) {
    console.log(howToGetOne)
    return { ...noCounts, failed: 1 }
  }
  const command = ['node_modules/@playwright/test/cli.js', 'test', '-c', 'e2e/playwright.config.ts']
  const { ok } = await run([process.execPath, ...command], {
    output: 'show',
    env: { NEXT_DIST_DIR: builtInto, OUTFLOW_BROWSER: browser, OUTFLOW_E2E_REPORT: file },
  })
  return playwrightCounts(file, ok)
}

/** @param {(Counts & { name: string })[]} checks */
function report(checks) {
  const sum = (/** @type {keyof Counts} */ key) => checks.reduce((total, counts) => total + counts[key], 0)
  const failed = checks.filter((counts) => counts.failed > 0)
  if (failed.length > 0) console.log(`\nFailed: ${failed.map(({ name }) => name).join('; ')}`)
  console.log(`\n${sum('passed')} passed, ${sum('failed')} failed, ${sum('skipped')} skipped`)
  if (failed.length > 0) process.exitCode = 1
}
