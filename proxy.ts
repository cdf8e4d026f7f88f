import { randomBytes } from 'node:crypto'
import { type NextRequest, NextResponse } from 'next/server'
import { isSecure } from '@/lib/access/base-url.ts'
import { pagePolicy, plainHeaders } from '@/lib/http/headers.ts'
import { PATH_HEADER } from '@/lib/http/path-header.ts'

/**
 * Gives every page its headers. The nonce is made for this one answer and goes to Next in the request's own
 * policy header, from where it puts it on its scripts and styles.
 */
export function proxy(request: NextRequest): NextResponse {
  const { pathname, search } = request.nextUrl
  const secure = isSecure()
  const isFile = pathname.startsWith('/_next/static/')
  const policy = isFile
    ? null
    : pagePolicy(randomBytes(18).toString('base64'), {
        secure,
        development: process.env.NODE_ENV === 'development',
      })

  const passedOn = new Headers(request.headers)
  passedOn.delete('content-security-policy')
  passedOn.set(PATH_HEADER, `${pathname}${search}`)
  if (policy) passedOn.set('content-security-policy', policy)

  const response = NextResponse.next({ request: { headers: passedOn } })
  for (const [name, value] of Object.entries(plainHeaders(secure))) response.headers.set(name, value)
  if (policy) {
    response.headers.set('Content-Security-Policy', policy)
    response.headers.set('Cache-Control', 'no-store')
  }
  return response
}

// The API sets its own headers (lib/http/answer.ts), so that no body is held here before it is counted there.
export const config = { matcher: '/((?!api/).*)' }
