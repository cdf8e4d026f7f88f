import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const source = readFileSync(new URL('../../app/check-in/worker/worker.js', import.meta.url), 'utf8')
const origin = 'https://clinic.example'

type Listener = (event: object) => void

/** A phone with a cache, and a server of which each test says what it has. */
function phone() {
  const stores = new Map<string, Map<string, Response>>()
  const has = new Map<string, string>()
  const state = { online: true, tookOver: false, open: [] as string[], asked: [] as string[] }
  const pathOf = (request: string | { url: string }) =>
    new URL(typeof request === 'string' ? request : request.url, origin).pathname

  const open = async (name: string) => {
    const store = stores.get(name) ?? new Map<string, Response>()
    stores.set(name, store)
    return {
      match: async (request: string | { url: string }) => store.get(pathOf(request))?.clone(),
      put: async (path: string, answer: Response) => void store.set(path, answer),
      keys: async () => [...store.keys()].map((path) => ({ url: origin + path })),
    }
  }
  const caches = {
    open,
    keys: async () => [...stores.keys()],
    delete: async (name: string) => stores.delete(name),
  }
  const fetch = async (request: string | { url: string }) => {
    const path = pathOf(request)
    state.asked.push(path)
    if (!state.online) throw new TypeError('no network')
    const text = has.get(path)
    return new Response(text ?? '', { status: text === undefined ? 404 : 200 })
  }

  /** The worker of one build, as the browser runs it. */
  function worker(BUILD: string) {
    const listeners = new Map<string, Listener>()
    const self = {
      BUILD,
      location: { origin },
      addEventListener: (name: string, listener: Listener) => listeners.set(name, listener),
      skipWaiting: async () => {
        state.tookOver = true
      },
      clients: {
        claim: async () => undefined,
        matchAll: async () => state.open.map((path) => ({ url: origin + path })),
      },
    }
    new Function('self', 'caches', 'fetch', source)(self, caches, fetch)
    return async (name: string, more: object = {}): Promise<string | undefined> => {
      const lasting: Promise<unknown>[] = []
      let answer: Promise<Response> | undefined
      listeners.get(name)?.({
        ...more,
        waitUntil: (work: Promise<unknown>) => lasting.push(work),
        respondWith: (given: Promise<Response>) => {
          answer = given
        },
      })
      const text = await (await answer)?.text()
      await Promise.all(lasting)
      return answer ? text : undefined
    }
  }
  const get = (path: string, mode = 'cors', method = 'GET') => ({
    request: { url: origin + path, mode, method },
  })
  return { has, stores, state, worker, get, visit: (path: string) => get(path, 'navigate') }
}

const page = (build: string, script: string) =>
  `<main data-build="${build}"><script src="/_next/static/chunks/${script}"></script>`

function served(build = 'b1') {
  const made = phone()
  made.has.set('/check-in', page(build, 'a.js'))
  made.has.set('/check-in/larkfield', page(build, 'a.js'))
  made.has.set('/_next/static/chunks/a.js', 'import("static/chunks/late.js"), style "static/chunks/s.css"')
  made.has.set('/_next/static/chunks/late.js', 'late')
  made.has.set('/_next/static/chunks/s.css', '@font-face { src: url(../media/f.woff2) }')
  made.has.set('/_next/static/media/f.woff2', 'font')
  return made
}

describe('the worker of the check-in page', () => {
  it('keeps the page, what is open, and all their parts, those that are loaded late too', async () => {
    const { stores, state, worker } = served()
    state.open = ['/check-in/larkfield', '/patients/1']
    await worker('b1')('install')
    expect([...(stores.get('check-in b1')?.keys() ?? [])].sort()).toEqual([
      '/_next/static/chunks/a.js',
      '/_next/static/chunks/late.js',
      '/_next/static/chunks/s.css',
      '/_next/static/media/f.woff2',
      '/check-in',
      '/check-in/larkfield',
    ])
  })

  it('opens them without a network; a page that was not kept gives way to the one that names nobody', async () => {
    const { state, worker, visit, get } = served()
    const run = worker('b1')
    await run('install')
    state.online = false
    expect(await run('fetch', visit('/check-in'))).toContain('data-build="b1"')
    expect(await run('fetch', visit('/check-in/elsewhere'))).toContain('data-build="b1"')
    expect(await run('fetch', get('/_next/static/chunks/late.js'))).toBe('late')
  })

  it('answers from the cache at once and keeps a newer copy of the same build for the next time', async () => {
    const { has, worker, visit } = served()
    const run = worker('b1')
    await run('install')
    has.set('/check-in', `${page('b1', 'a.js')}new number`)
    expect(await run('fetch', visit('/check-in'))).not.toContain('new number')
    expect(await run('fetch', visit('/check-in'))).toContain('new number')
  })

  it('never puts a page of another build into its cache', async () => {
    const { has, worker, visit } = served()
    const run = worker('b1')
    await run('install')
    has.set('/check-in', page('b2', 'b.js'))
    await run('fetch', visit('/check-in'))
    expect(await run('fetch', visit('/check-in'))).toContain('data-build="b1"')
    await expect(worker('b3')('install')).rejects.toThrow('another build')
  })

  it('is not installed where a part is missing', async () => {
    const { has, worker } = served()
    has.delete('/_next/static/media/f.woff2')
    await expect(worker('b1')('install')).rejects.toThrow('404')
  })

  it('takes the pages of the build before along, waits to be told, and then removes it', async () => {
    const { has, stores, state, worker, visit } = served()
    state.open = ['/check-in/larkfield']
    await worker('b1')('install')
    state.open = []
    for (const path of ['/check-in', '/check-in/larkfield']) has.set(path, page('b2', 'b.js'))
    has.set('/_next/static/chunks/b.js', 'two')
    const next = worker('b2')
    await next('install')
    expect(state.tookOver).toBe(false)
    expect([...stores.keys()]).toEqual(['check-in b1', 'check-in b2'])
    await next('message', { data: 'take-over' })
    await next('activate')
    expect(state.tookOver).toBe(true)
    expect([...stores.keys()]).toEqual(['check-in b2'])
    state.online = false
    expect(await next('fetch', visit('/check-in/larkfield'))).toContain('data-build="b2"')
  })

  it('does not look at the API, nor at anything that is sent', async () => {
    const { state, worker, get, visit } = served()
    const run = worker('b1')
    await run('install')
    state.asked = []
    expect(await run('fetch', get('/api/check-in'))).toBeUndefined()
    expect(await run('fetch', get('/check-in', 'navigate', 'POST'))).toBeUndefined()
    expect(await run('fetch', visit('/check-in/worker.js'))).toBeUndefined()
    expect(await run('fetch', visit('/patients/1'))).toBeUndefined()
    expect(state.asked).toEqual([])
  })
})
