import { z } from 'zod'

/** One fault of an input: where, what is wrong or was given, what is accepted. */
export const Fault = z.strictObject({
  field: z.string(),
  value: z.unknown().optional(),
  message: z.string(),
})
export type Fault = z.infer<typeof Fault>

/** Problem document, RFC 9457, with the faults of the input as an extension member. */
export const Problem = z.looseObject({
  type: z.string(),
  title: z.string(),
  status: z.number(),
  detail: z.string().optional(),
  instance: z.string().optional(),
  faults: z.array(Fault).optional(),
})
export type Problem = z.infer<typeof Problem>

/** Names of the problems that our doors answer with; each is one `type` in a problem document. */
export const ProblemKind = z.enum([
  'invalid-input',
  'not-signed-in',
  'not-allowed',
  'not-found',
  'link-not-valid',
  'conflict',
  'taken',
  'key-reused',
  'key-missing',
  'too-large',
  'too-many',
  'unavailable',
])
export type ProblemKind = z.infer<typeof ProblemKind>

/** An error that a door turns into a problem document. Thrown by lib, mapped in one place (lib/http). */
export class Refusal extends Error {
  constructor(
    readonly kind: ProblemKind,
    readonly detail: string,
    readonly faults: Fault[] = [],
  ) {
    super(detail)
    this.name = 'Refusal'
  }
}

/** Faults of a failed zod parse, each with the value that was given (never the whole body). */
export function faultsOf(error: z.ZodError, input: unknown): Fault[] {
  return error.issues.flatMap((issue) => {
    if (issue.code === 'unrecognized_keys')
      return issue.keys.map((key) => ({
        field: path([...issue.path, key]),
        message: 'is not a field of this; remove it',
      }))
    const value = valueAt(input, issue.path)
    const missing = value === undefined
    return [
      {
        field: path(issue.path),
        ...(missing || typeof value === 'object' ? {} : { value }),
        message: missing && !/^missing/.test(issue.message) ? `is missing; ${issue.message}` : issue.message,
      },
    ]
  })
}

const path = (steps: readonly PropertyKey[]): string =>
  steps.reduce<string>(
    (text, step) =>
      typeof step === 'number' ? `${text}[${step}]` : text === '' ? String(step) : `${text}.${String(step)}`,
    '',
  ) || '(whole)'

function valueAt(input: unknown, steps: readonly PropertyKey[]): unknown {
  let value = input
  for (const step of steps) {
    if (value === null || typeof value !== 'object') return undefined
    value = (value as Record<PropertyKey, unknown>)[step]
  }
  return value
}
