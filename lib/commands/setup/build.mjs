import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { hashOf } from './hash.mjs'
import { run } from './processes.mjs'
import { root } from './root.mjs'

const sources = [
  ...['app', 'lib', 'prisma/schema.prisma', 'proxy.ts', 'instrumentation.ts', 'instrumentation-client.ts'],
  ...['next.config.mjs', 'package-lock.json', 'tsconfig.json'],
]

/**
 * Builds the screens into a folder, unless the folder was built from these very sources.
 * @param {string} folder from the repository's root
 * @returns {Promise<{ ok: boolean, said: string, built: boolean }>}
 */
export async function build(folder) {
  const stamp = path.join(root, folder, 'built-from')
  const from = hashOf(sources)
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === from) return { ok: true, said: '', built: false }
  const result = await run([process.execPath, nextCli, 'build'], {
    env: { NEXT_DIST_DIR: folder, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: 'production' },
  })
  if (result.ok) writeFileSync(stamp, from)
  return { ...result, built: true }
}

export const nextCli = path.join(root, 'node_modules/next/dist/bin/next')
