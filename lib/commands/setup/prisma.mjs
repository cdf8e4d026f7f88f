import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { hashOf } from './hash.mjs'
import { run } from './processes.mjs'
import { Refusal } from './refusal.mjs'
import { root } from './root.mjs'

const stamp = `${root}/.cache/generated-from`

/**
 * Brings the database that DATABASE_URL names to the newest migration; makes it where it is missing.
 * @param {Record<string, string>} [env]
 */
export async function migrate(env) {
  await prisma(['migrate', 'deploy'], 'The database could not be prepared', env)
}

/** Generates the database client, unless it was generated from these very files. */
export async function generateClient() {
  const from = hashOf(['prisma/schema.prisma', 'package-lock.json', 'lib/store/generated'])
  if (from === read(stamp)) return
  await prisma(['generate'], 'The database client could not be generated')
  mkdirSync(`${root}/.cache`, { recursive: true })
  writeFileSync(stamp, hashOf(['prisma/schema.prisma', 'package-lock.json', 'lib/store/generated']))
}

/** @param {string[]} args @param {string} otherwise @param {Record<string, string>} [env] */
async function prisma(args, otherwise, env) {
  const cli = `${root}/node_modules/prisma/build/index.js`
  const { ok, said } = await run([process.execPath, cli, ...args, '--config', 'prisma/prisma.config.ts'], {
    // Nothing is looked up elsewhere: no news of newer versions, no usage figures.
    env: { ...env, CHECKPOINT_DISABLE: '1', PRISMA_HIDE_UPDATE_MESSAGE: '1', NO_COLOR: '1' },
  })
  if (ok) return
  console.error(said)
  throw new Refusal(`${otherwise}: Prisma said why above.`)
}

/** @param {string} file */
function read(file) {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    return null
  }
}
