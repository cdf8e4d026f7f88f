import { accessSync, constants, existsSync, readdirSync, readFileSync } from 'node:fs'
import { homedir } from 'node:os'
import path from 'node:path'
import { run } from './processes.mjs'
import { root } from './root.mjs'

export const howToGetOne =
  'No browser for the end-to-end tests: install Chromium or Chrome (on Debian: apt-get install chromium-headless-shell), ' +
  'or name one in OUTFLOW_BROWSER.'

/** The path of an installed Chromium or Chrome, Playwright's own included; null if there is none. */
export function findBrowser() {
  const named = process.env.OUTFLOW_BROWSER
  if (named) return canRun(named) ? named : null
  // The one without windows first: the same engine, for a quarter less of the processor.
  const names = [
    'chromium-headless-shell',
    'chromium',
    'chromium-browser',
    'google-chrome',
    'google-chrome-stable',
    'chrome',
  ]
  const folders = (process.env.PATH ?? '').split(path.delimiter)
  const places = [
    ...names.flatMap((name) => folders.map((folder) => path.join(folder, name))),
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    ...playwrightBrowsers(),
  ]
  return places.find(canRun) ?? null
}

/** Finds a browser or installs one: Debian's package where apt may be used, else Playwright's own. */
export async function ensureBrowser() {
  const found = findBrowser()
  if (found !== null) return found
  if (aptMayBeUsed()) {
    const env = { DEBIAN_FRONTEND: 'noninteractive' }
    await run(['apt-get', '-o', 'DPkg::Lock::Timeout=120', 'update'], { env, minutes: 5 })
    for (const name of ['chromium-headless-shell', 'chromium']) {
      const install = ['install', '-y', '--no-install-recommends', name]
      await run(['apt-get', '-o', 'DPkg::Lock::Timeout=120', ...install], { env, minutes: 10 })
      const debians = findBrowser()
      if (debians !== null) return debians
    }
  }
  const playwright = path.join(root, 'node_modules/playwright/cli.js')
  await run([process.execPath, playwright, 'install', 'chromium'], { minutes: 5 })
  return findBrowser()
}

/** Root on Debian itself: on its descendants the package of that name may be something else. */
function aptMayBeUsed() {
  const isDebian =
    existsSync('/etc/os-release') && /^ID=debian$/m.test(readFileSync('/etc/os-release', 'utf8'))
  return isDebian && process.getuid?.() === 0 && canRun('/usr/bin/apt-get')
}

function playwrightBrowsers() {
  const caches = {
    linux: path.join(homedir(), '.cache/ms-playwright'),
    darwin: path.join(homedir(), 'Library/Caches/ms-playwright'),
  }
  const cache =
    process.env.PLAYWRIGHT_BROWSERS_PATH ?? caches[/** @type {keyof typeof caches} */ (process.platform)]
  if (!cache || !existsSync(cache)) return []
  const inside = [
    'chrome-linux/chrome',
    'chrome-linux64/chrome',
    'chrome-mac/Chromium.app/Contents/MacOS/Chromium',
  ]
  return readdirSync(cache)
    .filter((name) => /^chromium-\d+$/.test(name))
    .flatMap((name) => inside.map((end) => path.join(cache, name, end)))
}

/** @param {string} file */
function canRun(file) {
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}
