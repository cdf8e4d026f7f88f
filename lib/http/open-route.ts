import { answer, answerError } from './answer.ts'
import { idempotencyKey } from './idempotency-key.ts'
import { readJson } from './read-body.ts'

/** One call at a door that has its own credentials, or needs none. */
export type OpenCall = {
  request: Request
  /** The JSON body; @throws Refusal too-large, invalid-input */
  body: () => Promise<unknown>
  /** The idempotency key; @throws Refusal key-missing, invalid-input */
  key: () => string
}

/** A door that is not for staff: the handler itself asks for whatever lets a caller in. */
export function openRoute(handler: (call: OpenCall) => Promise<unknown>) {
  return async (request: Request): Promise<Response> => {
    try {
      const value = await handler({
        request,
        body: () => readJson(request),
        key: () => idempotencyKey(request.headers),
      })
      return value instanceof Response ? value : answer(value)
    } catch (error) {
      return answerError(error, { method: request.method, path: new URL(request.url).pathname })
    }
  }
}
