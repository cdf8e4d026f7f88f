import { z } from 'zod'
import { type Fault, faultsOf, type Problem, type ProblemKind, Refusal } from '../domain/problem.ts'

/** Status and title of each problem; `type` is a name, not an address: nothing is to be fetched there. */
const kinds: Readonly<Record<ProblemKind, { status: number; title: string }>> = {
  'invalid-input': { status: 400, title: 'The input is not as it is accepted' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'not-allowed': { status: 403, title: 'This is not for your role' },
  'not-found': { status: 404, title: 'There is no such thing' },
  'link-not-valid': { status: 401, title: 'This link is not valid' },
  conflict: { status: 409, title: 'This does not fit what is stored' },
  taken: { status: 409, title: 'Somebody else has this row' },
  'key-reused': { status: 422, title: 'This key came with another body' },
  'key-missing': { status: 400, title: 'The Idempotency-Key is missing' },
  'too-large': { status: 413, title: 'The body is too large' },
  'too-many': { status: 429, title: 'Too many requests' },
  unavailable: { status: 503, title: 'Not available now' },
}

/** The refusal that an error stands for, or null for an error that nobody foresaw. */
export function refusalOf(error: unknown): Refusal | null {
  if (error instanceof Refusal) return error
  // Another bundle's copy of the class is another class: told by its name.
  if (error instanceof Error && error.name === 'Refusal' && 'kind' in error) return error as Refusal
  if (error instanceof z.ZodError)
    return new Refusal('invalid-input', 'The input is not as it is accepted.', faultsOf(error, undefined))
  return null
}

/** The problem document (RFC 9457) of a refusal. `id` names this one occurrence, for the server's log. */
export function problemOf(
  { kind, detail, faults }: Pick<Refusal, 'kind' | 'detail'> & { faults?: readonly Fault[] },
  id: string,
): Problem {
  const { status, title } = kinds[kind]
  return {
    type: `urn:outflow-round:problem:${kind}`,
    title,
    status,
    detail,
    instance: `urn:uuid:${id}`,
    ...(faults?.length ? { faults: [...faults] } : {}),
  }
}

/** What a caller is told of an error that nobody foresaw: nothing of it, but where to find it in the log. */
export const unforeseen = (id: string): Problem => ({
  type: 'about:blank',
  title: 'Something went wrong here',
  status: 500,
  detail:
    'Nothing was stored unless you were told so. Try again; if it stays, tell your administrator the number in "instance".',
  instance: `urn:uuid:${id}`,
})
