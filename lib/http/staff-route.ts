import { noteDenied } from '../access/note-denied.ts'
import { staffFromHeaders } from '../access/staff-from-headers.ts'
import { Refusal } from '../domain/problem.ts'
import { type Action, may, type StaffMember } from '../domain/staff.ts'
import { answer, answerError } from './answer.ts'
import { idempotencyKey } from './idempotency-key.ts'
import { readJson } from './read-body.ts'
import { requireSameOrigin } from './same-origin.ts'

/** One permitted call of a staff route. */
export type StaffCall<Params> = {
  staff: StaffMember
  params: Params
  request: Request
  /** The JSON body; @throws Refusal too-large, invalid-input */
  body: () => Promise<unknown>
  /** The idempotency key; @throws Refusal key-missing, invalid-input */
  key: () => string
  /** For a call that its body turns into another action; @throws Refusal not-allowed */
  permit: (action: Action) => Promise<void>
}

/** Says which action a route is for, to whoever was refused it. */
export const ACTION_HEADER = 'Outflow-Action'

/**
 * A route for staff: same origin, signed in, permitted, and only then the handler, whose value is answered as
 * JSON. Reading does not count as doing something: a list that refreshes itself keeps no session alive.
 */
export function staffRoute<Params = Record<string, never>>(
  action: Action,
  handler: (call: StaffCall<Params>) => Promise<unknown>,
) {
  return async (request: Request, context: { params: Promise<Params> }): Promise<Response> => {
    const { method, headers } = request
    const path = new URL(request.url).pathname
    const said = { [ACTION_HEADER]: action }
    try {
      requireSameOrigin(request)
      const staff = await staffFromHeaders(headers, { extend: method !== 'GET' })
      if (!staff) throw new Refusal('not-signed-in', 'Nobody is signed in here, or the session has ended.')
      const permit = async (wanted: Action) => {
        if (may(staff.role, wanted)) return
        await noteDenied(staff, wanted, `${method} ${path}`)
        throw new Refusal('not-allowed', `The role ${staff.role} may not do this.`)
      }
      await permit(action)
      const params = await context.params
      const value = await handler({
        staff,
        params,
        request,
        permit,
        body: () => readJson(request),
        key: () => idempotencyKey(headers),
      })
      if (!(value instanceof Response)) return answer(value, said)
      value.headers.set(ACTION_HEADER, action)
      return value
    } catch (error) {
      return answerError(error, { method, path }, said)
    }
  }
}
