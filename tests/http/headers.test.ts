import { describe, expect, it } from 'vitest'
import { pagePolicy, plainHeaders } from '../../lib/http/headers.ts'

const policy = (secure: boolean, development: boolean) => pagePolicy('n0nce', { secure, development })

describe('the policy of a page', () => {
  it('lets scripts and styles in by their nonce alone', () => {
    expect(policy(false, false)).toContain("script-src 'self' 'nonce-n0nce' 'strict-dynamic';")
    expect(policy(false, false)).toContain("style-src 'self' 'nonce-n0nce';")
  })

  it('permits nothing unsafe and no other host, but for the development server’s evaluation', () => {
    for (const secure of [true, false]) expect(policy(secure, false)).not.toMatch(/unsafe|https?:|\*/)
    expect(policy(false, true).match(/unsafe-\w+/g)).toEqual(['unsafe-eval'])
  })

  it('lets a page have a worker and a manifest of this host', () => {
    for (const from of ["worker-src 'self'", "manifest-src 'self'", "connect-src 'self'"])
      expect(policy(true, false)).toContain(`${from};`)
  })

  it('insists on TLS only where there is TLS', () => {
    expect(
      [policy(true, false), policy(false, false)].map((text) => text.includes('upgrade-insecure')),
    ).toEqual([true, false])
    expect(
      [plainHeaders(true), plainHeaders(false)].map((headers) => 'Strict-Transport-Security' in headers),
    ).toEqual([true, false])
  })
})
