import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import path from 'node:path'
import { root } from './root.mjs'

/**
 * One hash over the names and contents of these files and folders, those that do not exist included.
 * @param {string[]} names paths from the repository's root
 */
export function hashOf(names) {
  const hash = createHash('sha256')
  for (const name of names.flatMap(filesUnder))
    hash
      .update(`${name}\0`)
      .update(readFileSync(path.join(root, name)))
      .update('\0')
  return hash.digest('hex')
}

/** @param {string} name @returns {string[]} */
function filesUnder(name) {
  const full = path.join(root, name)
  if (!existsSync(full)) return []
  if (statSync(full).isFile()) return [name]
  return readdirSync(full, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => filesUnder(path.join(name, entry.name)))
}
