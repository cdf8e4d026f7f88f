import type { Tx } from './client.ts'

/**
 * Runs `work` within the caller's transaction so that a failure takes back what `work` stored, and only that.
 * @throws whatever `work` throws, once what it stored is taken back
 */
export async function savepoint<T>(tx: Tx, work: () => Promise<T>): Promise<T> {
  await tx.$executeRaw`SAVEPOINT "attempt"`
  try {
    const value = await work()
    await tx.$executeRaw`RELEASE "attempt"`
    return value
  } catch (error) {
    await tx.$executeRaw`ROLLBACK TO "attempt"`
    await tx.$executeRaw`RELEASE "attempt"`
    throw error
  }
}
