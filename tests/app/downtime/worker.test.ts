import { readFileSync } from 'node:fs'
import vm from 'node:vm'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'

const source = readFileSync(new URL('../../../app/downtime/worker/worker.js', import.meta.url), 'utf8')
const ORIGIN = 'https://clinic.example'
const NOW = Date.parse('2026-11-24T14:12:00Z')

/** The worker in a browser of our own: its listeners, one cache, and a server that answers as it is told to. */
function browser() {
  const kept = new Map<string, Response>()
  const cache = {
    match: async (key: string) => kept.get(key)?.clone(),
    put: async (key: string, value: Response) => void kept.set(key, value),
    delete: async (key: string) => kept.delete(key),
  }
  const listeners = new Map<string, (event: unknown) => void>()
  const server = vi.fn(async (_: unknown): Promise<Response> => new Response('the page'))
  const scope = {
    addEventListener: (name: string, listener: (event: unknown) => void) => listeners.set(name, listener),
    skipWaiting: async () => undefined,
    clients: { claim: async () => undefined },
    location: { origin: ORIGIN },
  }
  vm.runInNewContext(source, {
    self: scope,
    caches: { open: async () => cache },
    fetch: server,
    Response,
    URL,
    Intl,
    Date,
    setTimeout,
    crypto,
  })
  const ask = async (path: string, mode = 'navigate', method = 'GET') => {
    let answer: Promise<Response> | null = null
    const request = { url: `${ORIGIN}${path}`, mode, method }
    listeners.get('fetch')?.({ request, respondWith: (given: Promise<Response>) => (answer = given) })
    return answer as Promise<Response> | null
  }
  const keep = (keptMs = NOW - 120_000) =>
    kept.set(
      '/downtime/list',
      Response.json({
        asOf: '2026-11-24T14:10:00Z',
        keptMs,
        zone: 'America/Denver',
        style: 'p{}',
        markup: '<h1>Worklist</h1><p>Ada Invented</p>',
      }),
    )
  const breakDown = () => server.mockRejectedValue(new TypeError('no network'))
  return { ask, keep, kept, server, breakDown }
}

const textOf = async (answer: Response | null) => (await answer?.text()) ?? 'left to the browser'

beforeEach(() => void vi.useFakeTimers({ now: NOW, toFake: ['Date', 'setTimeout'] }))
afterEach(() => void vi.useRealTimers())

describe('the worker of the staff pages', () => {
  it('passes on what the server answers, and keeps nothing of it', async () => {
    const { ask, kept } = browser()
    expect(await textOf(await ask('/'))).toBe('the page')
    expect([...kept.keys()]).toEqual([])
  })

  it('leaves the API, the patients’ pages and everything but navigation to the browser', async () => {
    const { ask, server } = browser()
    for (const path of ['/check-in', '/check-in/larkfield', '/stop', '/on-call/x', '/api/worklist'])
      expect(await ask(path)).toBeNull()
    expect(await ask('/_next/static/x.js', 'no-cors')).toBeNull()
    expect(await ask('/', 'navigate', 'POST')).toBeNull()
    expect(server).not.toHaveBeenCalled()
  })

  it('shows the kept list with its time, and since when the server is gone', async () => {
    const { ask, keep, breakDown } = browser()
    keep()
    breakDown()
    const first = await ask('/patients/p1')
    expect(first?.headers.get('content-security-policy')).toMatch(/^default-src 'none'; style-src 'nonce-/)
    const text = await textOf(first)
    expect(text).toContain('The server cannot be reached since 07:12.')
    expect(text).toContain('This list is as of 07:10.')
    expect(text).toContain('Nothing can be recorded here: write on paper')
    expect(text).toContain('Ada Invented')
    expect(text).not.toContain('<script')
    vi.setSystemTime(NOW + 3_600_000)
    expect(await textOf(await ask('/'))).toContain('The server cannot be reached since 07:12.')
  })

  it('counts a server as gone behind a proxy that says so, or after ten seconds without an answer', async () => {
    const { ask, keep, server } = browser()
    keep()
    server.mockResolvedValue(new Response('bad gateway', { status: 502 }))
    expect(await textOf(await ask('/'))).toContain('cannot be reached since 07:12')
    server.mockResolvedValue(new Response('the page'))
    expect(await textOf(await ask('/'))).toBe('the page')
    server.mockReturnValue(new Promise(() => undefined))
    const slow = ask('/')
    await vi.advanceTimersByTimeAsync(10_000)
    expect(await textOf(await slow)).toContain('cannot be reached since 07:12')
  })

  it('shows no list that is older than a day, and wipes it', async () => {
    const { ask, keep, kept, breakDown } = browser()
    keep(NOW - 25 * 3_600_000)
    breakDown()
    const text = await textOf(await ask('/'))
    expect(text).toContain('No list is kept on this workstation.')
    expect(text).not.toContain('Ada Invented')
    expect(kept.has('/downtime/list')).toBe(false)
  })

  it('removes the list when it is told to', async () => {
    const { ask, keep, kept } = browser()
    keep()
    expect(await textOf(await ask('/downtime/forget'))).toContain('no longer on this workstation')
    expect(kept.has('/downtime/list')).toBe(false)
  })
})
