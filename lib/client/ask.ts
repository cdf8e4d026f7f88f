import type { z } from 'zod'
import { Problem } from '../domain/problem.ts'

/** A door that refused, with its problem document. */
export class RefusedError extends Error {
  constructor(
    readonly problem: Problem,
    readonly status: number,
  ) {
    super(problem.detail ?? problem.title)
    this.name = 'RefusedError'
  }
}

/** No answer, or none that can be read: whether something was stored is not known, so the same key is sent again. */
export class UnreachableError extends Error {
  constructor() {
    super('The server did not answer. Nothing on this screen is lost; try again.')
    this.name = 'UnreachableError'
  }
}

/** After this an answer is no longer waited for; the same call may be tried again. */
const PATIENCE_MS = 20_000

export type Method = 'GET' | 'POST' | 'PUT' | 'DELETE'
type Call = { method?: Method; body?: unknown; key?: string; signal?: AbortSignal }

/**
 * Asks one of the server's doors and reads the answer by its schema.
 * @throws RefusedError with the problem document, UnreachableError where no answer came
 */
export async function ask<T>(
  door: string,
  answer: z.ZodType<T>,
  { method = 'GET', body, key, signal }: Call = {},
): Promise<T> {
  const { status, ok, text } = await reach(door, method, body, key, signal)
  let value: unknown = null
  try {
    value = text === '' ? null : JSON.parse(text)
  } catch {
    throw new UnreachableError()
  }
  if (ok) {
    const read = answer.safeParse(value)
    if (read.success) return read.data
    throw new RefusedError(
      problemOf('The answer cannot be read', `${door}: ${read.error.issues[0]?.path.join('.')}`),
      status,
    )
  }
  const problem = Problem.safeParse(value)
  throw new RefusedError(
    problem.success ? problem.data : problemOf('The server could not do this', `It answered ${status}.`),
    status,
  )
}

const problemOf = (title: string, detail: string): Problem => ({
  type: 'about:blank',
  title,
  status: 0,
  detail,
})

async function reach(
  door: string,
  method: Method,
  body: unknown,
  key: string | undefined,
  signal?: AbortSignal,
) {
  const patience = AbortSignal.timeout(PATIENCE_MS)
  try {
    const response = await fetch(door, {
      method,
      headers: {
        Accept: 'application/json',
        ...(body === undefined ? {} : { 'Content-Type': 'application/json' }),
        ...(key === undefined ? {} : { 'Idempotency-Key': key }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      cache: 'no-store',
      signal: signal ? AbortSignal.any([signal, patience]) : patience,
    })
    return { status: response.status, ok: response.ok, text: await response.text() }
  } catch (error) {
    if (signal?.aborted) throw error
    throw new UnreachableError()
  }
}

/** Whether an error is a refusal of one kind. */
export const isRefusal = (error: unknown, kind: string): error is RefusedError =>
  error instanceof RefusedError && error.problem.type.endsWith(kind)
