/**
 * The service worker of the staff pages. It changes nothing while the server answers: only where a page cannot be
 * fetched does it show the worklist that this workstation kept last, with its time. It keeps no page and looks at no
 * answer of the API; the list is put into the cache by the open worklist (app/ui/downtime/keep-list.tsx) and taken out at
 * sign-out. Sent as it stands here (see ../worker.js/route.ts).
 *
 * @typedef {ExtendableEvent & { request: Request, respondWith(answer: Promise<Response>): void }} FetchEvent
 * @typedef {Event & { waitUntil(work: Promise<unknown>): void }} ExtendableEvent
 * @typedef {object} Worker
 * @property {{ claim(): Promise<void> }} clients
 * @property {() => Promise<void>} skipWaiting
 * @property {(name: string, listener: (event: FetchEvent) => void) => void} addEventListener
 *
 * @typedef {{ asOf: string, keptMs: number, zone: string, style: string, markup: string }} Kept
 */

const worker = /** @type {Worker} */ (/** @type {unknown} */ (self))

/** Names that lib/client/kept-list.ts shares. */
const CACHE = 'staff list'
const LIST = '/downtime/list'
/** Since when the server cannot be reached. */
const LOST = '/downtime/lost'
const FORGET = '/downtime/forget'

const KEPT_MS = 24 * 3_600_000
/** After this long without an answer the server counts as not reachable. */
const PATIENCE_MS = 10_000
/** What a proxy in front says of a server that is gone. */
const GONE = [502, 503, 504]
/** Pages that are not the staff's. */
const OTHERS = /^\/(check-in|stop|on-call|api)(\/|$)/

worker.addEventListener('install', (event) => event.waitUntil(worker.skipWaiting()))
worker.addEventListener('activate', (event) => event.waitUntil(worker.clients.claim()))
worker.addEventListener('fetch', (event) => {
  const { method, mode, url } = event.request
  const { origin, pathname } = new URL(url)
  if (method !== 'GET' || mode !== 'navigate' || origin !== self.location.origin) return
  if (OTHERS.test(pathname)) return
  event.respondWith(pathname === FORGET ? forget() : page(event.request))
})

async function page(/** @type {Request} */ request) {
  try {
    const answer = await inTime(fetch(request))
    if (GONE.includes(answer.status)) return downtime()
    const cache = await caches.open(CACHE)
    await cache.delete(LOST)
    return answer
  } catch {
    return downtime()
  }
}

/** @param {Promise<Response>} answer @returns {Promise<Response>} */
const inTime = (answer) =>
  Promise.race([
    answer,
    new Promise((_, reject) => setTimeout(() => reject(new Error('no answer')), PATIENCE_MS)),
  ])

async function downtime() {
  const cache = await caches.open(CACHE)
  const now = Date.now()
  const lost = await cache.match(LOST)
  const sinceMs = lost ? Number(await lost.text()) : now
  if (!lost) await cache.put(LOST, new Response(String(now)))
  const kept = await keptList(cache, now)
  const zone = kept?.zone
  const since = time(sinceMs, zone, now)
  return shown(
    kept?.style ?? '',
    `<div class="notice" role="alert"><p>The server cannot be reached since ${since}.</p>
${
  kept
    ? `<p><b>This list is as of ${time(Date.parse(kept.asOf), zone, now)}.</b> Nothing can be recorded here: write on paper, and enter it when the server is back.</p>`
    : '<p>No list is kept on this workstation. Go by the printed list and the local procedure for a downtime.</p>'
}
<p class="screen">It is tried again by itself every 30 seconds. <a href="">Try now</a>${kept ? ` · <a href="${FORGET}">Remove this list from this workstation</a>` : ''}</p></div>
${kept?.markup ?? ''}`,
  )
}

/** The list, unless it is too old: then it goes. @param {Cache} cache @param {number} now @returns {Promise<Kept | null>} */
async function keptList(cache, now) {
  const found = await cache.match(LIST)
  if (!found) return null
  const kept = /** @type {Kept} */ (await found.json())
  if (now - kept.keptMs <= KEPT_MS) return kept
  await cache.delete(LIST)
  return null
}

async function forget() {
  const cache = await caches.open(CACHE)
  await cache.delete(LIST)
  return shown(
    '',
    '<p>The list is no longer on this workstation.</p><p><a href="/">Try the server</a></p>',
    false,
  )
}

/**
 * A page by itself: no script, nothing fetched, nothing kept by the browser.
 * @param {string} style @param {string} body @param {boolean} again
 */
function shown(style, body, again = true) {
  const nonce = crypto.randomUUID()
  return new Response(
    `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
${again ? '<meta http-equiv="refresh" content="30">' : ''}
<title>Server not reached</title>
<style nonce="${nonce}">${style || 'body{font:16px/1.4 system-ui,sans-serif;margin:1rem}'}</style>
</head>
<body>
${body}
</body>
</html>`,
    {
      headers: {
        'Content-Type': 'text/html; charset=utf-8',
        'Cache-Control': 'no-store',
        'X-Content-Type-Options': 'nosniff',
        'Referrer-Policy': 'no-referrer',
        'Content-Security-Policy': `default-src 'none'; style-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
      },
    },
  )
}

/** The clinic's hour, with the day where it is another. @param {number} ms @param {string | undefined} zone @param {number} now */
function time(ms, zone, now) {
  const part = (/** @type {Intl.DateTimeFormatOptions} */ options, /** @type {number} */ at) =>
    new Intl.DateTimeFormat('en-GB', { ...options, timeZone: zone }).format(at)
  const day = /** @type {const} */ ({ weekday: 'short', day: 'numeric', month: 'short' })
  const hour = part({ hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }, ms)
  return part(day, ms) === part(day, now) ? hour : `${part(day, ms)}, ${hour}`
}
