import { z } from 'zod'
import { Instant } from './instant.ts'

/** What is to be tried next, when, in words. */
export const NextTry = z.strictObject({ at: Instant.nullable(), says: z.string() })
export type NextTry = z.infer<typeof NextTry>
