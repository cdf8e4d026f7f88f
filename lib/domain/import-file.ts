import { z } from 'zod'
import { Instant } from './instant.ts'
import { Problem } from './problem.ts'

/** Most lines of one file besides its header, and most bytes of it. */
export const IMPORT_MAX_LINES = 20_000
export const IMPORT_MAX_BYTES = 8 * 1024 * 1024

/** What is wrong in one line of a file, as an editor counts lines; `column` is null where it is the whole line. */
export const LineFault = z.strictObject({
  line: z.number(),
  column: z.string().nullable(),
  value: z.string().nullable(),
  message: z.string(),
})
export type LineFault = z.infer<typeof LineFault>

/** How far a file is: of `of` things, lines or reports or patients, `done`. */
export const ImportProgress = z.strictObject({
  phase: z.enum(['parsed', 'checked', 'stored', 'assessed']),
  done: z.number(),
  of: z.number(),
})
export type ImportProgress = z.infer<typeof ImportProgress>

/** What a file holds, and what became of it. Nothing is stored while one line is at fault. */
export const ImportOutcome = z.strictObject({
  dryRun: z.boolean(),
  /** Lines that say something, the header not counted. */
  lines: z.number(),
  patients: z.number(),
  /** New reports: stored, or, of a dry run, to be stored. */
  reports: z.number(),
  /** Lines that were said before, in this file or in an earlier one: they add nothing. */
  repeated: z.number(),
  faults: z.array(LineFault),
  /** When this very file was taken in before; it then adds nothing. */
  takenAt: Instant.nullable(),
})
export type ImportOutcome = z.infer<typeof ImportOutcome>

/** One line of the door's answer: how far it is, then how it ended. */
export const ImportNews = z.discriminatedUnion('news', [
  z.strictObject({ news: z.literal('progress'), ...ImportProgress.shape }),
  z.strictObject({ news: z.literal('outcome'), outcome: ImportOutcome }),
  z.strictObject({ news: z.literal('problem'), problem: Problem }),
])
export type ImportNews = z.infer<typeof ImportNews>
