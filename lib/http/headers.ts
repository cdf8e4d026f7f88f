/** What every answer carries, whoever asks. */
export function plainHeaders(secure: boolean): Record<string, string> {
  return {
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'X-Robots-Tag': 'noindex, nofollow',
    'X-Frame-Options': 'DENY',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), payment=(), usb=()',
    ...(secure ? { 'Strict-Transport-Security': 'max-age=63072000; includeSubDomains' } : {}),
  }
}

/** What an answer of the API carries: it is never kept, and if a browser is made to show it, it can do nothing. */
export function dataHeaders(secure: boolean): Record<string, string> {
  return {
    ...plainHeaders(secure),
    'Cache-Control': 'no-store',
    'Content-Security-Policy': "default-src 'none'; frame-ancestors 'none'",
  }
}

/**
 * The Content-Security-Policy of a page. Scripts and style elements run by the nonce of this one answer, or not
 * at all. Only the development server evaluates text as code and talks to its own socket.
 */
export function pagePolicy(
  nonce: string,
  { secure, development }: { secure: boolean; development: boolean },
): string {
  return [
    "default-src 'none'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${development ? " 'unsafe-eval'" : ''}`,
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    ...(secure ? ['upgrade-insecure-requests'] : []),
  ].join('; ')
}
