/** A reason not to go on that one line explains: printed without a stack, exit 1. */
export class Refusal extends Error {}

/**
 * Runs a command's main function; a Refusal becomes its one line.
 * @param {() => Promise<void>} main
 */
export async function runCommand(main) {
  try {
    await main()
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    console.error(error.message)
    process.exitCode = 1
  }
}
