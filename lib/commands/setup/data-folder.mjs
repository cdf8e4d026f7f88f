import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { Refusal } from './refusal.mjs'
import { root } from './root.mjs'

/**
 * Makes the folder of the database file (.data/ unless DATABASE_URL says otherwise) and sees that it can be
 * written to.
 * @param {NodeJS.ProcessEnv} env
 */
export function prepareDataFolder(env) {
  const file = (env.DATABASE_URL ?? 'file:./.data/outflow.db').replace(/^file:/, '').replace(/\?.*$/, '')
  const folder = path.dirname(path.resolve(root, file))
  try {
    makeFolder(folder)
    const probe = path.join(folder, '.can-write') // tried, since rights alone do not tell a read-only disk
    writeFileSync(probe, '')
    rmSync(probe)
    return folder
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? error.code : error
    throw new Refusal(`The data folder ${folder} cannot be written to (${why}): give this user the right to.`)
  }
}

/** Step by step: Node's own recursive form never returns where the system denies that a parent exists. @param {string} folder */
function makeFolder(folder) {
  if (existsSync(folder)) return
  makeFolder(path.dirname(folder))
  mkdirSync(folder, { mode: 0o700 })
}
