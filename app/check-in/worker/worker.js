/**
 * The check-in page's service worker: keeps the page and all its parts, so that it opens without a network. Sent as it
 * stands here, with `BUILD` put before it (see ../worker.js/route.ts). Each build has a cache of its own, filled as a
 * whole before the worker takes over, so a page never meets the scripts of another build. What the API answers is never
 * looked at, let alone kept.
 *
 * @typedef {ExtendableEvent & { request: Request, respondWith(answer: Promise<Response>): void }} FetchEvent
 * @typedef {Event & { data?: unknown, waitUntil(work: Promise<unknown>): void }} ExtendableEvent
 * @typedef {object} Worker
 * @property {{ matchAll(options: object): Promise<readonly { url: string }[]>, claim(): Promise<void> }} clients
 * @property {() => Promise<void>} skipWaiting
 * @property {(name: string, listener: (event: FetchEvent) => void) => void} addEventListener
 */

const worker = /** @type {Worker} */ (/** @type {unknown} */ (self))
const build = /** @type {string} */ (Reflect.get(self, 'BUILD'))

const PREFIX = 'check-in '
const KEEP = PREFIX + build
/** The page of the installed app; it also stands in for a clinic's page that was not kept. */
const SHELL = '/check-in'
const PARTS = '/_next/static/'

/** @param {string} path */
const isPage = (path) => /^\/check-in(\/[\w-]+)?$/.test(path)

worker.addEventListener('install', (event) => event.waitUntil(install()))
worker.addEventListener('activate', (event) => event.waitUntil(activate()))
worker.addEventListener('message', (event) => {
  if (event.data === 'take-over') event.waitUntil(worker.skipWaiting())
  if (event.data === 'keep-pages') event.waitUntil(openPages().then(keepPages))
})
worker.addEventListener('fetch', (event) => {
  const { method, mode, url } = event.request
  const { origin, pathname, search } = new URL(url)
  if (method !== 'GET' || origin !== self.location.origin) return
  if (mode === 'navigate' && isPage(pathname)) event.respondWith(page(event, pathname, search))
  else if (pathname.startsWith(PARTS)) event.respondWith(part(event.request))
})

/** All or nothing: a worker whose pages are not whole is not installed, and the browser tries again later. */
async function install() {
  await keepPages(new Set([SHELL, ...(await openPages()), ...(await pagesOfEarlierBuilds())]))
}

async function activate() {
  for (const name of await caches.keys())
    if (name.startsWith(PREFIX) && name !== KEEP) await caches.delete(name)
  await worker.clients.claim()
}

/** The kept page at once, whatever the network does, and a newer copy of it for the next time. */
async function page(
  /** @type {FetchEvent} */ event,
  /** @type {string} */ path,
  /** @type {string} */ search,
) {
  const cache = await caches.open(KEEP)
  const kept = await cache.match(path, { ignoreVary: true })
  if (kept && search === '') {
    event.waitUntil(keepPage(cache, path).catch(() => undefined))
    return kept
  }
  try {
    const fresh = await fetch(event.request)
    event.waitUntil(keepPage(cache, path).catch(() => undefined))
    return fresh
  } catch {
    return kept ?? (await cache.match(SHELL, { ignoreVary: true })) ?? Response.error()
  }
}

async function part(/** @type {Request} */ request) {
  return (await (await caches.open(KEEP)).match(request.url, { ignoreVary: true })) ?? fetch(request)
}

async function openPages() {
  const open = await worker.clients.matchAll({ type: 'window', includeUncontrolled: true })
  return new Set(open.map(({ url }) => new URL(url).pathname).filter(isPage))
}

async function pagesOfEarlierBuilds() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX))
  const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()))
  return kept
    .flat()
    .map(({ url }) => new URL(url).pathname)
    .filter(isPage)
}

async function keepPages(/** @type {Set<string>} */ paths) {
  const cache = await caches.open(KEEP)
  for (const path of paths) await keepPage(cache, path)
}

/** A page is kept once all its parts are, and only if it is of this build. */
async function keepPage(/** @type {Cache} */ cache, /** @type {string} */ path) {
  const answer = await fetched(path)
  const text = await answer.clone().text()
  if (!text.includes(`data-build="${build}"`)) throw new Error('the page is of another build')
  await keepParts(cache, partsIn(text))
  await cache.put(path, answer)
}

/** The parts, and those that they name in turn: a font in a style, a script that is loaded when it is needed. */
async function keepParts(/** @type {Cache} */ cache, /** @type {Set<string>} */ wanted) {
  const seen = new Set()
  for (const path of wanted) {
    if (seen.has(path)) continue
    seen.add(path)
    const kept = await cache.match(path, { ignoreVary: true })
    const answer = kept ?? (await fetched(path))
    if (!kept) await cache.put(path, answer.clone())
    // A set that grows while it is walked is walked to its end.
    if (/\.(js|css)$/.test(path)) for (const found of partsIn(await answer.text())) wanted.add(found)
  }
}

/** Whatever looks like the name of a built file, in a page, a script or a style. */
const partsIn = (/** @type {string} */ text) =>
  new Set(
    [...text.matchAll(/(?:chunks|media|css)\/[\w~.()-]+\.(?:js|css|woff2|png|svg)/g)].map(
      ([name]) => PARTS + name,
    ),
  )

async function fetched(/** @type {string} */ path) {
  const answer = await fetch(path, { cache: path.startsWith(PARTS) ? 'default' : 'no-store' })
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`)
  return answer
}
