import { readFileSync, statSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { addressTrouble, baseUrl, isSecure } from '../../lib/access/base-url.ts'
import { authSecret } from '../../lib/access/secret.ts'
import { databasePerTest } from '../store/database.ts'

describe('the address', () => {
  it('is loopback with the port of the server, unless OUTFLOW_URL says otherwise', () => {
    expect(baseUrl({ PORT: '3123' } as never).href).toBe('http://127.0.0.1:3123/')
    expect(baseUrl({ OUTFLOW_URL: 'https://round.example' } as never).href).toBe('https://round.example/')
  })

  it.each([
    ['https://round.example', true, false],
    ['http://127.0.0.1:3000', false, false],
    ['http://localhost:3000', false, false],
    ['http://[::1]:3000', false, false],
    ['http://round.example', false, true],
    ['http://127.0.0.1.example', false, true],
  ])('%s', (address, secure, troubled) => {
    const env = { OUTFLOW_URL: address } as never
    expect([isSecure(env), addressTrouble(env) !== null]).toEqual([secure, troubled])
  })
})

describe('the secret', () => {
  const database = databasePerTest()

  it('comes from the environment, and is refused when short', () => {
    expect(authSecret({ AUTH_SECRET: 'x'.repeat(32) } as never)).toBe('x'.repeat(32))
    expect(() => authSecret({ AUTH_SECRET: 'x'.repeat(31) } as never)).toThrow('at least 32')
  })

  it('is else made once beside the database, for its owner alone', () => {
    const made = authSecret({} as never)
    expect(made.length).toBeGreaterThanOrEqual(43)
    expect(authSecret({} as never)).toBe(made)
    const file = path.join(database.folder, 'secret')
    expect([readFileSync(file, 'utf8'), statSync(file).mode & 0o777]).toEqual([made, 0o600])
  })
})
