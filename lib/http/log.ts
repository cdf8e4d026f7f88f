import pino from 'pino'

/** The server's log, one JSON object a line, in UTC. It names no patient: faults are told by kind, place and number. */
export const log = pino({
  level: process.env.LOG_LEVEL ?? 'info',
  base: undefined,
  timestamp: pino.stdTimeFunctions.isoTime,
})

/**
 * What the log keeps of an error. The database library quotes the values of a failed call in its message; of such
 * an error only the last line is kept.
 */
export function errorForLog(error: unknown): Record<string, unknown> {
  if (!(error instanceof Error)) return { name: typeof error }
  const code = 'code' in error ? error.code : undefined
  const isOfStore = error.name.startsWith('Prisma') || /invocation/.test(error.message)
  const frames = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line))
  // The last line says what the database said, which quotes names of tables and columns only.
  const message = isOfStore ? error.message.trim().split('\n').at(-1)?.slice(0, 300) : error.message
  return { name: error.name, code, message, at: frames.slice(0, 8).map((line) => line.trim()) }
}
