import type { z } from 'zod'
import { faultsOf, Refusal } from '../domain/problem.ts'

/** Reads an input by its schema, or refuses it with one fault per field. `what` names it to a person. */
export function parse<T>(what: string, shape: z.ZodType<T>, input: unknown): T {
  const read = shape.safeParse(input)
  if (read.success) return read.data
  throw new Refusal('invalid-input', `The ${what} is not as it is accepted.`, faultsOf(read.error, input))
}
