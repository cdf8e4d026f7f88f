/** Runs once when the server starts, before it takes a request. What needs Node stands in a file of its own. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  const { startServing } = await import('./lib/commands/serving.ts')
  startServing()
}
