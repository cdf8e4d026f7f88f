import { readFileSync } from 'node:fs'
import path from 'node:path'

/** @typedef {{ passed: number, failed: number, skipped: number }} Counts */

/** @type {Counts} */
export const noCounts = { passed: 0, failed: 0, skipped: 0 }

/**
 * The counts in Vitest's JSON report; prints them by folder.
 * @param {string} file @param {boolean} ok whether the run ended well @param {string} root
 */
export function vitestCounts(file, ok, root) {
  const report = read(file)
  /** @type {Map<string, number>} */
  const byFolder = new Map()
  for (const suite of report?.testResults ?? []) {
    const folder = path.relative(root, suite.name).split(path.sep).slice(0, -1).slice(0, 2).join('/')
    byFolder.set(folder, (byFolder.get(folder) ?? 0) + suite.assertionResults.length)
  }
  for (const [folder, count] of [...byFolder].sort()) console.log(`   ${folder}: ${count} tests`)
  return atLeastOneFailure(ok, {
    passed: report?.numPassedTests ?? 0,
    failed: report?.numFailedTests ?? 0,
    skipped: (report?.numPendingTests ?? 0) + (report?.numTodoTests ?? 0),
  })
}

/** The counts in Playwright's JSON report. @param {string} file @param {boolean} ok */
export function playwrightCounts(file, ok) {
  const stats = read(file)?.stats
  return atLeastOneFailure(ok, {
    passed: stats?.expected ?? 0,
    failed: (stats?.unexpected ?? 0) + (stats?.flaky ?? 0), // passing at the second try is a fault as well
    skipped: stats?.skipped ?? 0,
  })
}

/**
 * A run that ended badly without a failed test (a file that cannot be loaded, no report) is one failure.
 * @param {boolean} ok @param {Counts} counts
 */
function atLeastOneFailure(ok, counts) {
  return ok || counts.failed > 0 ? counts : { ...counts, failed: 1 }
}

/** @param {string} file */
function read(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    return null
  }
}
