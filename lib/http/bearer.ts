import { Refusal } from '../domain/problem.ts'

/** What a sending system without a valid key is told, whatever is wrong with it. */
export const noSystem = () =>
  new Refusal('not-signed-in', 'Send the key of your system: Authorization: Bearer KEY.')

/**
 * The key of a sending system.
 * @throws Refusal not-signed-in
 */
export function bearerKey(headers: Headers): string {
  const key = /^Bearer ([\x21-\x7e]{20,200})$/i.exec(headers.get('authorization') ?? '')?.[1]
  if (!key) throw noSystem()
  return key
}
