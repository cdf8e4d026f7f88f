import { Action, may, type Role } from '../../lib/domain/staff.ts'

/** One address that a built server answers, as the build itself lists it. */
export type Address = { kind: 'page' | 'route'; pattern: string }
/** Who asks: nobody, or somebody of a role with their cookie. */
export type Caller = { role: Role | null; cookie: string }

const METHODS = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'] as const
type Method = (typeof METHODS)[number]

/**
 * The addresses that are not for staff, and what each asks for instead. `credentials`: of its own, so that whoever
 * brings none is refused all the same. Whatever is not named here must refuse everybody whom its action is not for.
 */
export const openAddresses: Readonly<Record<string, 'public' | 'credentials'>> = {
  '/sign-in': 'public',
  '/forgot-password': 'public',
  '/reset-password': 'public',
  '/refused': 'public',
  '/check-in': 'public', // an empty form: what is in it comes from /api/check-in
  '/check-in/[clinic]': 'public', // the same, with the name and the numbers of a clinic
  '/check-in/manifest.webmanifest': 'public',
  '/check-in/words.json': 'public',
  '/check-in/worker.js': 'public',
  '/downtime/worker.js': 'public', // holds nothing: the list that it shows is kept by the workstation
  '/on-call/[id]': 'public', // empty: what it shows comes from /api/on-call, for the secret behind the #
  '/stop': 'public', // says nothing of anybody without a signed token
  '/icon.svg': 'public',
  '/_not-found': 'public',
  '/_global-error': 'public',
  '/api': 'public', // the description of the door for other systems
  '/api/health': 'public',
  '/api/[...unknown]': 'public', // answers 404 to all
  '/api/auth/[...all]': 'credentials',
  '/api/on-call/[id]': 'credentials',
  '/api/link': 'credentials',
  '/api/stop': 'credentials',
  '/api/link/renew': 'credentials',
  '/api/check-in': 'credentials',
  '/api/reports': 'credentials',
}

/** What each page for staff is for. A page that is not named must let nobody in. */
export const pageActions: Readonly<Record<string, Action>> = {
  '/': 'read-worklist',
  '/patients/new': 'enrol',
  '/discharges': 'keep-discharges',
  '/settings/orders': 'edit-clinic',
  '/patients/[id]': 'read-patient',
  '/patients/[id]/hand-out': 'read-patient',
  '/patients/[id]/paper': 'enter-report',
  '/patients/[id]/new-drain': 'enrol',
  '/handover': 'hand-over',
  '/handover/[id]': 'hand-over',
  '/numbers': 'read-numbers',
  '/audit': 'audit',
  '/audit/week/[week]': 'audit',
  '/audit/outcomes': 'record-outside-event',
  '/verdicts': 'read-numbers',
  '/import': 'import-reports',
  '/settings/after-hours': 'edit-rota',
  '/settings/rota': 'edit-rota',
  '/settings': 'edit-clinic',
  '/settings/texts': 'edit-clinic',
  '/settings/no-answer': 'edit-clinic',
  '/audit/week/[week]/minutes': 'audit',
  '/audit/replays/[id]': 'audit',
  '/audit/rules/[draft]': 'audit',
  '/audit/rules/new': 'audit',
  '/audit/rules': 'audit',
  '/settings/questions': 'edit-clinic',
  '/audit/figures': 'audit',
}

/** The addresses of a build, from its own `app-path-routes-manifest.json`. */
export const addressesOf = (manifest: Record<string, string>): Address[] =>
  Object.entries(manifest).map(([file, pattern]) => ({
    kind: file.endsWith('/page') ? 'page' : 'route',
    pattern,
  }))

/** Asks every address with every method as every caller. Gives one line for each answer that should have been another. */
export async function walk(
  origin: string,
  addresses: readonly Address[],
  callers: readonly Caller[],
): Promise<string[]> {
  const faults: string[] = []
  for (const address of addresses)
    for (const method of address.kind === 'page' ? (['GET'] as const) : METHODS)
      faults.push(...(await walkOne(origin, address, method, callers)))
  return faults
}

async function walkOne(
  origin: string,
  { kind, pattern }: Address,
  method: Method,
  callers: readonly Caller[],
): Promise<string[]> {
  const name = `${method} ${pattern}`
  const faults: string[] = []
  for (const caller of callers) {
    const who = caller.role ?? 'nobody'
    const reply = await replyOf(origin, pattern, method, caller)
    if (reply.outcome === 'no such method') continue
    const open = openAddresses[pattern]
    if (open === 'public') continue
    if (open === 'credentials') {
      if (reply.status < 400 || reply.status >= 500)
        faults.push(`${name} let ${who} in without its credentials (${reply.status})`)
      continue
    }
    const action = kind === 'page' ? pageActions[pattern] : reply.action
    if (action === undefined) {
      if (reply.outcome === 'let in')
        faults.push(`${name} let ${who} in and names no action of ours (${reply.status})`)
      else if (kind === 'route')
        faults.push(`${name} refuses ${who} but names no action of ours (${reply.status})`)
      continue
    }
    const expected =
      caller.role === null ? 'not signed in' : may(caller.role, action) ? 'let in' : 'not allowed'
    if (reply.outcome !== expected)
      faults.push(
        `${name} (${action}): ${who} was to be '${expected}' and was '${reply.outcome}' (${reply.status})`,
      )
  }
  return faults
}

type Outcome = 'let in' | 'not signed in' | 'not allowed' | 'no such method'
type Reply = { outcome: Outcome; status: number; action: Action | undefined }

async function replyOf(origin: string, pattern: string, method: Method, { cookie }: Caller): Promise<Reply> {
  const browser = new AbortController()
  const response = await fetch(`${origin}${pattern.replace(/\[[^\]]+\]/g, 'nobody')}`, {
    method,
    redirect: 'manual',
    signal: browser.signal,
    headers: { 'content-type': 'application/json', ...(cookie ? { cookie } : {}) },
    ...(method === 'GET' ? {} : { body: '{}' }),
  })
  const { status, headers } = response
  browser.abort() // a stream of events would not end by itself
  await response.body?.cancel().catch(() => undefined)
  const action = Action.safeParse(headers.get('outflow-action'))
  const leadsTo = (page: string) =>
    status >= 300 && status < 400 && new URL(headers.get('location') ?? '', origin).pathname === page
  const outcome = (): Outcome => {
    if (status === 405) return 'no such method'
    if (status === 401 || leadsTo('/sign-in')) return 'not signed in'
    if (status === 403 || leadsTo('/refused')) return 'not allowed'
    return 'let in'
  }
  return { outcome: outcome(), status, action: action.success ? action.data : undefined }
}
