import { z } from 'zod'
import { handOver } from '../access/hand-over.ts'
import { passwordTrouble } from '../access/password.ts'
import { noteSignIn } from '../access/sign-in-note.ts'
import { staffFromHeaders } from '../access/staff-from-headers.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import { answer } from './answer.ts'
import { callerAddress } from './caller-address.ts'
import { giveBack, spend, TooMany } from './limits.ts'
import { errorForLog, log } from './log.ts'
import { openRoute } from './open-route.ts'
import { requireSameOrigin } from './same-origin.ts'

const SignIn = z.strictObject({
  email: z.string().trim().toLowerCase().max(200),
  password: z.string().max(1000),
})
const Forgotten = z.strictObject({ email: z.email('accepted: an e-mail address').max(200).toLowerCase() })
const NewPassword = z.strictObject({ token: z.string().min(1).max(200), newPassword: z.string().max(1000) })

type Door = (request: Request, body: () => Promise<unknown>) => Promise<Response>

/** What the sign-in library does for us over HTTP. It can do more; nothing else of it is reachable. */
const doors: Readonly<Record<string, Door>> = {
  'sign-in/email': signIn,
  'sign-out': signOut,
  'request-password-reset': requestReset,
  'reset-password': setPassword,
}

export const signInDoor = openRoute(async ({ request, body }) => {
  const door = doors[new URL(request.url).pathname.replace(/^\/api\/auth\//, '')]
  if (!door) throw new Refusal('not-found', 'There is no such door.')
  requireSameOrigin(request)
  return door(request, body)
})

/** One answer for an unknown address, a wrong password and a disabled account. */
async function signIn(request: Request, body: () => Promise<unknown>): Promise<Response> {
  const { email, password } = read(SignIn, await body())
  await spend('sign-in-address', callerAddress(request.headers))
  try {
    await spend('sign-in-account', email)
  } catch (error) {
    if (error instanceof TooMany && error.isFirst) await noteSignIn(email, 'sign-in-blocked')
    throw error
  }
  const response = await handOver(request, { email, password })
  if (!response.ok) {
    await noteSignIn(email, 'sign-in-refused')
    throw new Refusal('not-signed-in', 'The e-mail address or the password is not right.')
  }
  await giveBack('sign-in-account', email)
  await noteSignIn(email, 'sign-in')
  return done(response)
}

async function signOut(request: Request): Promise<Response> {
  const staff = await staffFromHeaders(request.headers, { extend: false })
  const response = await handOver(request, {})
  if (staff) await noteSignIn(staff.email, 'sign-out')
  return done(response)
}

/** Answered before anything is looked up, so that neither words nor time tell whether an address has an account. */
async function requestReset(request: Request, body: () => Promise<unknown>): Promise<Response> {
  const { email } = read(Forgotten, await body())
  await spend('reset-address', callerAddress(request.headers))
  void spend('reset-account', email)
    .then(() => handOver(request, { email }))
    .catch((error) => {
      if (!(error instanceof TooMany))
        log.error({ error: errorForLog(error) }, 'a letter to set a password could not be made')
    })
  return answer({ sent: 'If this address has an account, a letter is on its way.' })
}

async function setPassword(request: Request, body: () => Promise<unknown>): Promise<Response> {
  const { token, newPassword } = read(NewPassword, await body())
  await spend('set-password', callerAddress(request.headers))
  const message = passwordTrouble(newPassword)
  if (message)
    throw new Refusal('invalid-input', 'The password is not accepted.', [{ field: 'newPassword', message }])
  const response = await handOver(request, { token, newPassword })
  if (!response.ok) throw new Refusal('link-not-valid', 'This link is not valid any more. Ask for a new one.')
  return done(response)
}

/**
 * Only the cookies go on to the browser, as session cookies: how long they hold is decided here at the server, and
 * a browser that is closed on a shared machine forgets them.
 */
function done(response: Response): Response {
  const headers = new Headers()
  for (const cookie of response.headers.getSetCookie()) {
    const ends = /;\s*Max-Age=0\b/i.test(cookie)
    headers.append('Set-Cookie', ends ? cookie : cookie.replace(/;\s*(Max-Age|Expires)=[^;]*/gi, ''))
  }
  return answer({ done: true }, headers)
}

function read<T>(shape: z.ZodType<T>, body: unknown): T {
  const parsed = shape.safeParse(body)
  if (parsed.success) return parsed.data
  const faults = faultsOf(parsed.error, body).map(({ field, message }) => ({ field, message })) // never a password back
  throw new Refusal('invalid-input', 'The input is not as it is accepted.', faults)
}
