import { Refusal } from '../domain/problem.ts'
import { connect, databaseUrl } from './connect.ts'
import type { Prisma, PrismaClient } from './generated/client.ts'
import { WriteQueue } from './queue.ts'

/** What a repository function takes first: an open transaction, or a connection that only reads. */
export type Tx = Prisma.TransactionClient

type Store = {
  writer: PrismaClient
  reader: PrismaClient
  snapshots: PrismaClient
  queue: WriteQueue
  snapshotQueue: WriteQueue
}

const KEY = Symbol.for('outflow.store')
const shared = globalThis as typeof globalThis & { [KEY]?: Store }

/** One per process, on globalThis: a server bundles this file more than once, and two queues would be none. */
export function store(): Store {
  shared[KEY] ??= (() => {
    const url = databaseUrl()
    return {
      writer: connect(url, 'write'),
      reader: connect(url, 'read'),
      snapshots: connect(url, 'snapshot'),
      queue: new WriteQueue(),
      snapshotQueue: new WriteQueue(),
    }
  })()
  return shared[KEY]
}

const LIMITS = { maxWait: 60_000, timeout: 60_000 }

/**
 * Changes no row, yet is a write: it takes the lock before anything is read, so that no other process writes between.
 * @throws Refusal unavailable, where another process keeps the lock
 */
export async function takeLock(tx: Tx): Promise<void> {
  try {
    await tx.$executeRaw`UPDATE "Lease" SET "until" = "until" WHERE "name" = 'write'`
  } catch (error) {
    if (error instanceof Error && error.message.includes('SQLITE_BUSY'))
      throw new Refusal('unavailable', 'The store is busy with another program’s work; send it again.')
    throw error
  }
}

/**
 * Runs `work` in one transaction, after all that was queued before it. Acknowledge only what this has returned.
 * @param timeoutMs what takes longer is given up and leaves nothing behind
 */
export function write<T>(work: (tx: Tx) => Promise<T>, timeoutMs: number = LIMITS.timeout): Promise<T> {
  const { queue, writer } = store()
  return queue.exclusive('write', () =>
    writer.$transaction(
      async (tx) => {
        await takeLock(tx)
        return work(tx)
      },
      { ...LIMITS, timeout: timeoutMs },
    ),
  )
}

/** Single reads, each of what is committed by then. */
export const read = <T>(work: (tx: Tx) => Promise<T>): Promise<T> => work(store().reader)

/** Several reads of one and the same instant. One after another on their own connection: keep them short. */
export function snapshot<T>(work: (tx: Tx) => Promise<T>): Promise<T> {
  const { snapshotQueue, snapshots } = store()
  return snapshotQueue.exclusive('write', () => snapshots.$transaction((tx) => work(tx), LIMITS))
}

/** Lets what was queued end, then closes the file. For commands and tests; the next call opens it again. */
export async function closeStore(): Promise<void> {
  const open = shared[KEY]
  if (!open) return
  delete shared[KEY]
  await open.queue.settled()
  await open.snapshotQueue.settled()
  await Promise.all([open.writer.$disconnect(), open.reader.$disconnect(), open.snapshots.$disconnect()])
}
