import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { build } from '../../lib/commands/setup/build.mjs'

/** Once before all journeys: builds the screens, unless they were, and makes room for the data to begin with. */
export default async function prepare(): Promise<() => void> {
  process.env.NEXT_DIST_DIR ??= '.next-test'
  const { ok, said } = await build(process.env.NEXT_DIST_DIR)
  if (!ok) throw new Error(`the build failed:\n${said}`)

  const folder = mkdtempSync(path.join(tmpdir(), 'outflow-beginnings-'))
  process.env.OUTFLOW_E2E_BEGINNINGS = folder
  return () => rmSync(folder, { recursive: true, force: true })
}
