import { baseUrl } from '../access/base-url.ts'
import { Refusal } from '../domain/problem.ts'

const READS = new Set(['GET', 'HEAD', 'OPTIONS'])

/**
 * Refuses a request that changes something and was not made by our own pages. A browser says whose page asks
 * (Origin, Sec-Fetch-Site) and lets no page lie about it. What says neither is no browser and carries no cookie
 * that it did not choose to send; it still has to send JSON, which no form of another site can.
 * @throws Refusal not-allowed
 */
export function requireSameOrigin({ method, headers }: Pick<Request, 'method' | 'headers'>): void {
  if (READS.has(method)) return
  const site = headers.get('sec-fetch-site')
  const origin = headers.get('origin')
  if (site !== null && site !== 'same-origin') throw refused()
  if (origin !== null && !isOurs(origin, headers.get('host'))) throw refused()
  if (site === null && origin === null && !/^application\/json\b/i.test(headers.get('content-type') ?? ''))
    throw refused()
}

const refused = () => new Refusal('not-allowed', 'The request does not come from a page of this server.')

function isOurs(origin: string, host: string | null): boolean {
  if (!URL.canParse(origin)) return false // such as the opaque origin 'null'
  const from = new URL(origin)
  return from.host === host || from.origin === baseUrl().origin
}
