import { readFileSync } from 'node:fs'
import path from 'node:path'

export const dynamic = 'force-dynamic'

/** The service worker of the staff pages. Its header lets it have every page of this origin; it leaves the patients' alone. */
export function GET(): Response {
  const source = readFileSync(path.join(process.cwd(), 'app/downtime/worker/worker.js'), 'utf8')
  return new Response(source, {
    headers: { 'Content-Type': 'text/javascript; charset=utf-8', 'Service-Worker-Allowed': '/' },
  })
}
