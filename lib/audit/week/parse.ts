import type { z } from 'zod'
import { LocalDate } from '../../domain/instant.ts'
import { faultsOf, Refusal } from '../../domain/problem.ts'
import { mondayOf } from '../../domain/week-page.ts'

/** Reads an input by its schema, or refuses it with one fault per field. `what` names it to a person. */
export function parse<T>(what: string, shape: z.ZodType<T>, input: unknown): T {
  const read = shape.safeParse(input)
  if (read.success) return read.data
  throw new Refusal('invalid-input', `The ${what} is not as it is accepted.`, faultsOf(read.error, input))
}

/**
 * The Monday by which a week is named.
 * @throws Refusal invalid-input
 */
export function weekOf(input: unknown): LocalDate {
  const read = LocalDate.safeParse(input)
  if (read.success && mondayOf(read.data) === read.data) return read.data
  throw new Refusal('invalid-input', 'This names no week.', [
    { field: 'week', value: input, message: 'accepted: the date of a Monday, such as 2026-03-02' },
  ])
}
