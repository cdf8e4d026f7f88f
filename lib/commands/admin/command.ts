import { type ParseArgsConfig, parseArgs } from 'node:util'
import { Refusal } from '../../domain/problem.ts'

export type Options = Record<string, string | undefined>

/** One thing that `npm run admin` does. `needs` and `takes` name its options, each with what it is. */
export type Command = {
  does: string
  needs: Record<string, string>
  takes: Record<string, string>
  /** What stands alone behind the command's name, such as a file; it reaches `run` under this name. */
  operand?: string
  /** Options without a value; one that is given is 'yes'. */
  switches?: readonly string[]
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
export function optionsOf(name: string, command: Command, args: string[]): Options {
  const { needs, takes, operand, switches = [] } = command
  const options: NonNullable<ParseArgsConfig['options']> = Object.fromEntries([
    ...[...Object.keys(needs), ...Object.keys(takes)].map((option) => [option, { type: 'string' }]),
    ...switches.map((option) => [option, { type: 'boolean' }]),
  ])
  const values: Options = {}
  let operands: string[]
  try {
    const read = parseArgs({ args, options, strict: true, allowPositionals: operand !== undefined })
    operands = read.positionals
    for (const [option, value] of Object.entries(read.values))
      values[option] = value === true ? 'yes' : String(value)
  } catch (error) {
    throw new Refusal(
      'invalid-input',
      `${error instanceof Error ? error.message : error}\n${usageOf(name, command)}`,
    )
  }
  if (operand !== undefined) {
    if (operands.length !== 1)
      throw new Refusal('invalid-input', `accepted: one ${operand}\n${usageOf(name, command)}`)
    values[operand] = operands[0]
  }
  const missing = Object.keys(needs).filter((option) => !values[option])
  if (missing.length > 0)
    throw new Refusal(
      'invalid-input',
      `missing: ${missing.map((option) => `--${option}`).join(', ')}\n${usageOf(name, command)}`,
    )
  return values
}

export function usageOf(
  name: string,
  { needs, takes, operand, switches = [] }: Omit<Command, 'does' | 'run'>,
): string {
  const needed = Object.entries(needs).map(([option, what]) => `--${option} ${what}`)
  const taken = Object.entries(takes).map(([option, what]) => `[--${option} ${what}]`)
  const switched = switches.map((option) => `[--${option}]`)
  return ['npm run admin --', name, ...(operand ? [operand] : []), ...needed, ...taken, ...switched].join(' ')
}
