import { Refusal } from '@/lib/domain/problem.ts'
import { answer } from '@/lib/http/answer.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { stopReminders } from '@/lib/intake/index.ts'

const tokenOf = (request: Request): string => {
  const token = new URL(request.url).searchParams.get('t')
  if (!token) throw new Refusal('link-not-valid', 'This link stops nothing: it is not whole.')
  return token
}

/** Relative, so that it leads to whatever address the caller came by. */
const toPage = (token: string) =>
  new Response(null, { status: 303, headers: { location: `/stop?t=${encodeURIComponent(token)}` } })

/** A mail program that cannot stop by itself opens the address instead: it gets the page with the button. */
export const GET = openRoute(async ({ request }) => toPage(tokenOf(request)))

/**
 * Stops reminders: for the button of the page, which is then shown again, and for mail programs, which post
 * with no cookie and no page around it (RFC 8058). The signed token is the whole right to do it.
 */
export const POST = openRoute(async ({ request }) => {
  const token = tokenOf(request)
  await stopReminders(token)
  return request.headers.get('sec-fetch-mode') === 'navigate' ? toPage(token) : answer({ stopped: true })
})
