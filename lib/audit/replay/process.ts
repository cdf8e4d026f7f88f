import { setPriority } from 'node:os'
import type { ReplayResult } from '../../domain/replay.ts'
import { closeStore } from '../../store/index.ts'
import { runReplay } from './run.ts'
import type { Run } from './task.ts'

/**
 * What a process of its own says to the server that started it. It reads the database through its own connection and
 * writes nothing: what is to be kept, the server writes.
 */
export type Said =
  | { kind: 'progress'; done: number; total: number }
  | { kind: 'done'; result: ReplayResult }
  | { kind: 'failed'; why: string }

/** Behind everything that answers a person. Threads that are started later inherit it. */
const NICE = 15

const say = (said: Said) =>
  new Promise<void>((resolve) => {
    if (process.send) process.send(said, () => resolve())
    else resolve()
  })

// Nobody waits for it any more: the server has ended.
process.on('disconnect', () => process.exit(1))

process.once('message', async (run: Run) => {
  setPriority(NICE)
  try {
    const result = await runReplay(run, (done, total) => void say({ kind: 'progress', done, total }))
    await say({ kind: 'done', result })
  } catch (error) {
    await say({ kind: 'failed', why: error instanceof Error ? error.message : String(error) })
  } finally {
    await closeStore()
    process.exit(0)
  }
})
