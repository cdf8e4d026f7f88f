import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { build } from '../../lib/commands/setup/build.mjs'
import { beginning } from './beginning.ts'

/**
 * Once before all journeys: builds the screens, unless they were, and makes the data to begin with, which two workers
 * would else make at the same time.
 */
export default async function prepare(): Promise<() => void> {
  process.env.NEXT_DIST_DIR ??= '.next-test'
  const { ok, said } = await build(process.env.NEXT_DIST_DIR)
  if (!ok) throw new Error(`the build failed:\n${said}`)

  const folder = mkdtempSync(path.join(tmpdir(), 'outflow-beginnings-'))
  process.env.OUTFLOW_E2E_BEGINNINGS = folder
  for (const data of ['empty', 'demo'] as const) await beginning(data)
  return () => rmSync(folder, { recursive: true, force: true })
}
