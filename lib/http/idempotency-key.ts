import { Refusal } from '../domain/problem.ts'

const accepted =
  'accepted: 1 to 200 visible ASCII characters, a UUID for example, the same again on each repeat'

/**
 * The key under which a request stores something at most once. A quoted string as the standard has it, or bare.
 * @throws Refusal key-missing, invalid-input
 */
export function idempotencyKey(headers: Headers): string {
  const given = headers.get('idempotency-key')?.trim()
  if (!given)
    throw new Refusal(
      'key-missing',
      `A request that stores something carries an Idempotency-Key; ${accepted}.`,
    )
  const key = /^"(.*)"$/.exec(given)?.[1] ?? given
  if (!/^[\x21-\x7e]{1,200}$/.test(key))
    throw new Refusal('invalid-input', 'The Idempotency-Key is not as it is accepted.', [
      { field: 'Idempotency-Key', value: given.slice(0, 250), message: accepted },
    ])
  return key
}
