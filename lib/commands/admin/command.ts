import { type ParseArgsConfig, parseArgs } from 'node:util'
import { Refusal } from '../../domain/problem.ts'

export type Options = Record<string, string | undefined>

/** One thing that `npm run admin` does. `needs` and `takes` name its options, each with what it is. */
export type Command = {
  does: string
  needs: Record<string, string>
  takes: Record<string, string>
  /** Gives the lines to print, and whether all is well. */
  run: (options: Options) => Promise<{ lines: string[]; ok: boolean }>
}

/** Who the access record says it was: the machine's user behind the command line. */
export const byCommandLine = `command line, ${process.env.USER ?? process.env.LOGNAME ?? 'unknown user'}`

export const done = (...lines: string[]) => ({ lines, ok: true })

/**
 * Reads a command's options.
 * @throws Refusal invalid-input
 */
export function optionsOf(name: string, { needs, takes }: Command, args: string[]): Options {
  const options: NonNullable<ParseArgsConfig['options']> = Object.fromEntries(
    [...Object.keys(needs), ...Object.keys(takes)].map((option) => [option, { type: 'string' as const }]),
  )
  let values: Options
  try {
    values = parseArgs({ args, options, strict: true }).values as Options
  } catch (error) {
    throw new Refusal(
      'invalid-input',
      `${error instanceof Error ? error.message : error}\n${usageOf(name, { needs, takes })}`,
    )
  }
  const missing = Object.keys(needs).filter((option) => !values[option])
  if (missing.length > 0)
    throw new Refusal(
      'invalid-input',
      `missing: ${missing.map((option) => `--${option}`).join(', ')}\n${usageOf(name, { needs, takes })}`,
    )
  return values
}

export function usageOf(name: string, { needs, takes }: Pick<Command, 'needs' | 'takes'>): string {
  const needed = Object.entries(needs).map(([option, what]) => `--${option} ${what}`)
  const taken = Object.entries(takes).map(([option, what]) => `[--${option} ${what}]`)
  return ['npm run admin --', name, ...needed, ...taken].join(' ')
}
