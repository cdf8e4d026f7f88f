import { randomBytes } from 'node:crypto'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { databaseUrl } from '../store/index.ts'

const SHORTEST = 32

/**
 * The secret that sign-in cookies are signed with: AUTH_SECRET (or BETTER_AUTH_SECRET), else made once and kept
 * beside the database, readable for its owner alone.
 */
export function authSecret(env: NodeJS.ProcessEnv = process.env): string {
  const given = env.AUTH_SECRET ?? env.BETTER_AUTH_SECRET
  if (given !== undefined) {
    if (given.length < SHORTEST)
      throw new Error(`AUTH_SECRET has ${given.length} characters; accepted: at least ${SHORTEST}`)
    return given
  }
  const file = path.join(
    /*turbopackIgnore: true*/ path.dirname(
      path.resolve(/*turbopackIgnore: true*/ databaseUrl().replace(/^file:/, '')),
    ),
    'secret',
  )
  mkdirSync(path.dirname(file), { recursive: true, mode: 0o700 })
  try {
    writeFileSync(file, randomBytes(32).toString('base64url'), { flag: 'wx', mode: 0o600 })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  }
  return readFileSync(file, 'utf8').trim()
}
