import { readFileSync } from 'node:fs'
import path from 'node:path'
import { buildId } from '../worker/build.ts'

export const dynamic = 'force-dynamic'

/** The service worker of the served build. It lies beside the page, so the header lets it have the page itself too. */
export function GET(): Response {
  const source = readFileSync(path.join(process.cwd(), 'app/check-in/worker/worker.js'), 'utf8')
  return new Response(`self.BUILD = ${JSON.stringify(buildId())}\n${source}`, {
    headers: {
      'Content-Type': 'text/javascript; charset=utf-8',
      'Service-Worker-Allowed': '/check-in',
    },
  })
}
