import { Refusal } from '../domain/problem.ts'
import { BODY_MAX_BYTES } from '../domain/submission.ts'
import { readBytes } from './read-bytes.ts'

const tooLarge = (most: number) => () =>
  new Refusal('too-large', `The body has more than ${most / 1024} KiB; accepted: at most that.`)
const noJson = (detail: string) =>
  new Refusal('invalid-input', detail, [
    { field: '(whole)', message: 'accepted: one JSON value in UTF-8, sent as application/json' },
  ])

/**
 * The JSON of a request. Counted while it is read, so that no more than the limit is ever held, whatever the
 * request says of its length.
 * @throws Refusal too-large, invalid-input
 */
export async function readJson(request: Request, most: number = BODY_MAX_BYTES): Promise<unknown> {
  if (!/^application\/json\s*(;|$)/i.test(request.headers.get('content-type') ?? ''))
    throw noJson('The body is not said to be JSON.')
  const text = await readText(request, most)
  try {
    return JSON.parse(text)
  } catch {
    throw noJson('The body is not JSON.')
  }
}

async function readText(request: Request, most: number): Promise<string> {
  const bytes = await readBytes(request, most, tooLarge(most))
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw noJson('The body is not UTF-8.')
  }
}
