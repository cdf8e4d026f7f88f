import { readFileSync } from 'node:fs'
import path from 'node:path'

let known: string | undefined

/** Names the build that is served, so that a phone tells one version of the page from the next. */
export function buildId(): string {
  known ??= read()
  return known
}

function read(): string {
  if (process.env.NODE_ENV !== 'production') return 'development'
  const folder = process.env.NEXT_DIST_DIR ?? '.next'
  return readFileSync(path.join(process.cwd(), folder, 'BUILD_ID'), 'utf8').trim()
}
