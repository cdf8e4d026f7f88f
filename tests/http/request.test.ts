import { afterEach, describe, expect, it, vi } from 'vitest'
import { localPath } from '../../app/sign-in/local-path.ts'
import { bearerKey } from '../../lib/http/bearer.ts'
import { callerAddress } from '../../lib/http/caller-address.ts'
import { checkInCookie, checkInSessionOf } from '../../lib/http/check-in-cookie.ts'
import { idempotencyKey } from '../../lib/http/idempotency-key.ts'
import { forgetCounts, giveBack, spend } from '../../lib/http/limits.ts'
import { requireSameOrigin } from '../../lib/http/same-origin.ts'

const kindOf = (work: () => unknown) => {
  try {
    work()
    return 'taken'
  } catch (error) {
    return (error as { kind: string }).kind
  }
}

describe('an idempotency key', () => {
  const key = (value?: string) => () =>
    idempotencyKey(new Headers(value === undefined ? {} : { 'idempotency-key': value }))
  it('is a quoted string or bare', () => {
    expect([key('"8f14e45f-ceea"')(), key('8f14e45f-ceea')()]).toEqual(['8f14e45f-ceea', '8f14e45f-ceea'])
  })
  it.each([
    [undefined, 'key-missing'],
    ['', 'key-missing'],
    ['with a space', 'invalid-input'],
    ['"'.repeat(9), 'taken'],
    ['x'.repeat(201), 'invalid-input'],
  ])('%j: %s', (value, kind) => expect(kindOf(key(value))).toBe(kind))
})

describe('a request that changes something', () => {
  const host = '127.0.0.1:3000'
  const judged = (headers: Record<string, string>, method = 'POST') =>
    kindOf(() => requireSameOrigin({ method, headers: new Headers({ host, ...headers }) }))
  const json = { 'content-type': 'application/json' }
  it.each([
    ['from our own page', { origin: `http://${host}`, 'sec-fetch-site': 'same-origin' }],
    ['from an older browser', { origin: `http://${host}` }],
    ['from a program, as JSON', json],
  ])('%s is taken', (_, headers) =>
    expect(judged(headers as unknown as Record<string, string>)).toBe('taken'),
  )
  it.each([
    ['from another site', { origin: 'https://evil.example', 'sec-fetch-site': 'cross-site', ...json }],
    ['from another port', { origin: 'http://127.0.0.1:3001', ...json }],
    ['from a neighbour', { origin: `http://${host}`, 'sec-fetch-site': 'same-site' }],
    ['typed into the address bar', { 'sec-fetch-site': 'none', ...json }],
    ['from a sandboxed frame', { origin: 'null', ...json }],
    ['from a form without an origin', { 'content-type': 'application/x-www-form-urlencoded' }],
    ['from a form that sends text', { 'content-type': 'text/plain' }],
  ])('%s is refused', (_, headers) => {
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE'])
      expect(judged(headers as unknown as Record<string, string>, method)).toBe('not-allowed')
  })
  it('may come from the address behind a proxy that names another host', () => {
    vi.stubEnv('OUTFLOW_URL', 'https://round.example')
    expect(judged({ origin: 'https://round.example' })).toBe('taken')
    expect(judged({ origin: 'http://round.example' })).toBe('not-allowed')
  })
  it('is not what a GET is', () => expect(judged({ origin: 'https://evil.example' }, 'GET')).toBe('taken'))
})

describe('the address of a caller', () => {
  it.each([
    ['9.9.9.9', 0, '9.9.9.9'],
    ['1.2.3.4, 9.9.9.9', 1, '9.9.9.9'],
    ['1.2.3.4, 9.9.9.9, 10.0.0.1', 2, '9.9.9.9'],
    ['9.9.9.9', 2, 'unknown'],
    ['', 0, 'unknown'],
  ])('%s behind %i proxies', (forwarded, proxies, address) =>
    expect(callerAddress(new Headers({ 'x-forwarded-for': forwarded }), proxies)).toBe(address),
  )
})

describe('the cookie of a check-in', () => {
  it('is for this host alone, over TLS, out of reach for scripts', () => {
    const cookie = checkInCookie('s3cret', '2026-03-02T20:00:00.000Z')
    expect(cookie).toBe(
      '__Host-check-in=s3cret; Path=/; Secure; HttpOnly; SameSite=Strict; Expires=Mon, 02 Mar 2026 20:00:00 GMT',
    )
    expect(checkInSessionOf(new Headers({ cookie: `a=1; ${cookie.split(';')[0]}; b=2` }))).toBe('s3cret')
  })
  it.each(['', 'check-in=x', 'x__Host-check-in=x', '__Host-check-in='])('is not %j', (cookie) => {
    expect(kindOf(() => checkInSessionOf(new Headers({ cookie })))).toBe('link-not-valid')
  })
})

describe('the key of a system', () => {
  const key = 'k'.repeat(43)
  it('stands behind Bearer', () =>
    expect(bearerKey(new Headers({ authorization: `Bearer ${key}` }))).toBe(key))
  it.each(['', 'Bearer', 'Bearer short', `Basic ${key}`, key])('%j is none', (authorization) => {
    expect(kindOf(() => bearerKey(new Headers({ authorization })))).toBe('not-signed-in')
  })
})

describe('a count', () => {
  afterEach(forgetCounts)
  it('lets no more through than its limit, at once or not', async () => {
    const tries = await Promise.allSettled(Array.from({ length: 25 }, () => spend('sign-in-account', 'nora')))
    expect(tries.filter(({ status }) => status === 'fulfilled').length).toBe(10)
    await expect(spend('sign-in-account', 'nora')).rejects.toMatchObject({ kind: 'too-many' })
    await expect(spend('sign-in-account', 'ben')).resolves.toBeUndefined()
  })
  it('gives back what was rightful', async () => {
    for (let i = 0; i < 30; i++) {
      await spend('sign-in-account', 'nora')
      await giveBack('sign-in-account', 'nora')
    }
  })
  it('tells the first that was too many from those after it', async () => {
    const firsts: boolean[] = []
    for (let i = 0; i < 13; i++)
      await spend('sign-in-account', 'nora').catch((error) => firsts.push(error.isFirst))
    expect(firsts).toEqual([true, false, false])
  })
})

describe('where sign-in leads', () => {
  it.each([
    ['/patients/p1?tab=flags', '/patients/p1?tab=flags'],
    ['https://evil.example/', '/'],
    ['//evil.example', '/'],
    ['/\\evil.example', '/'],
    ['/..//evil.example', '/'],
    ['/\t/evil.example', '/'],
    ['javascript:alert(1)', '/'],
    ['patients', '/'],
    [undefined, '/'],
    [['/a', '/b'], '/'],
  ])('%j: %s', (next, path) => expect(localPath(next)).toBe(path))
})
