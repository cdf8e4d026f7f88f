import { betterAuth } from 'better-auth'
import { now } from '../clock.ts'
import { signInDatabase, write } from '../store/index.ts'
import { addLetter } from '../store/outbox.ts'
import { stored } from '../store/rows.ts'
import { endSessionsOf, staffById } from '../store/staff.ts'
import { baseUrl } from './base-url.ts'
import { hashPassword, PASSWORD_MAX, PASSWORD_MIN, verifyPassword } from './password.ts'
import { recordAccess } from './record.ts'
import { authSecret } from './secret.ts'
import { clampToAbsolute, IDLE_SECONDS, REFRESH_SECONDS, startOnlyEnabled } from './session-life.ts'

/** How long a mailed link to set a password holds. */
export const RESET_SECONDS = 60 * 60

/** `__Host-`: this very host, over TLS (or on the machine itself), for all paths, and never readable for a script. */
export const SESSION_COOKIE = '__Host-session'

/** The token stands in the fragment, which no server log sees. */
export const resetLink = (token: string): string => new URL(`/reset-password#${token}`, baseUrl()).href

function build() {
  return betterAuth({
    appName: 'Outflow Round',
    baseURL: baseUrl().origin,
    secret: authSecret(),
    database: signInDatabase(),
    telemetry: { enabled: false },
    logger: { disabled: true }, // it would log addresses of people; what matters is recorded by us
    onAPIError: { throw: true }, // handOver tells a refusal from a fault
    rateLimit: { enabled: false }, // the door limits by account and by address (lib/http/limits.ts)
    user: {
      modelName: 'staff',
      additionalFields: {
        clinicId: { type: 'string', required: true, input: false },
        role: { type: 'string', required: true, input: false },
        disabledAt: { type: 'date', required: false, input: false },
      },
    },
    session: { expiresIn: IDLE_SECONDS, updateAge: REFRESH_SECONDS, cookieCache: { enabled: false } },
    verification: { storeIdentifier: 'hashed' },
    databaseHooks: {
      session: {
        create: { before: startOnlyEnabled },
        update: { before: clampToAbsolute },
      },
    },
    advanced: {
      // The door has compared the request's origin with its host (lib/http/same-origin.ts), also for what is no browser.
      disableCSRFCheck: true,
      database: { generateId: () => crypto.randomUUID() },
      cookies: {
        session_token: { name: SESSION_COOKIE, attributes: { secure: true, sameSite: 'lax', path: '/' } },
      },
    },
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      autoSignIn: false,
      minPasswordLength: PASSWORD_MIN,
      maxPasswordLength: PASSWORD_MAX,
      password: { hash: hashPassword, verify: ({ hash, password }) => verifyPassword(hash, password) },
      resetPasswordTokenExpiresIn: RESET_SECONDS,
      revokeSessionsOnPasswordReset: true,
      sendResetPassword: async ({ user, token }) => {
        await write(async (tx) => {
          const staff = await staffById(tx, user.id)
          if (!staff || staff.disabledAt) return
          const { clinicId, name, email } = staff
          await addLetter(
            tx,
            {
              clinicId,
              patientId: null,
              kind: 'reset-password',
              body: { to: email, name, link: resetLink(token) },
            },
            now(),
          )
        })
      },
      onPasswordReset: async ({ user }) => {
        await write(async (tx) => {
          const staff = await staffById(tx, user.id)
          if (!staff) return
          await endSessionsOf(tx, staff.id)
          const { id, clinicId, name, role } = staff
          await recordAccess(tx, {
            clinicId,
            at: stored(now()),
            staffId: id,
            actor: name,
            role,
            action: 'set-password',
            patientId: null,
            what: 'set a new password; all sessions ended',
          })
        })
      },
    },
  })
}

const KEY = Symbol.for('outflow.auth')
const shared = globalThis as typeof globalThis & { [KEY]?: ReturnType<typeof build> }

/** The sign-in library, set up on first use (a build needs neither secret nor database). One per process. */
export function auth(): ReturnType<typeof build> {
  shared[KEY] ??= build()
  return shared[KEY]
}

/** Forgets the set-up: for tests that change database or address. */
export function closeAuth(): void {
  delete shared[KEY]
}
