import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { run } from './processes.mjs'
import { Refusal } from './refusal.mjs'
import { root } from './root.mjs'

/** Whether node_modules holds what the lock file names, by npm's own note of what it installed there. */
export function packagesAreCurrent(folder = root) {
  const packagesOf = (/** @type {string} */ file) => {
    const name = path.join(folder, file)
    return existsSync(name) ? JSON.parse(readFileSync(name, 'utf8')).packages : {}
  }
  const installed = packagesOf('node_modules/.package-lock.json')
  return Object.entries(packagesOf('package-lock.json')).every(([name, wanted]) => {
    if (name === '' || wanted.link) return true
    const there = installed[name]
    // Builds for other systems are locked too, and rightly not installed here.
    return there ? there.version === wanted.version : wanted.optional === true || wanted.peer === true
  })
}

/** Installs what the lock file names unless it is there. */
export async function installPackages() {
  if (packagesAreCurrent()) return
  console.log('Installing packages from the lock file; the first time takes a few minutes …')
  // With the development packages, whatever NODE_ENV says: the build needs them.
  const { ok, said } = await run(['npm', 'ci', '--include=dev', '--no-audit', '--no-fund'])
  if (ok) return
  console.error(said)
  throw new Refusal('The packages could not be installed: npm said why above.')
}
