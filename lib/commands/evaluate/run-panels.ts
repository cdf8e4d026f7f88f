import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import type { Task } from './panels.ts'
import type { Progress } from './progress.ts'
import type { Tally } from './tally.ts'
import type { Done, Work, WorkerData } from './worker.ts'

const BATCH = 10

/** Follows all patients on all cores, a few at a time; what comes back is small, so no panel is ever held whole. */
export async function runPanels(
  tasks: readonly Task[],
  data: WorkerData,
  progress: Progress,
): Promise<Tally[]> {
  const tallies: Tally[] = []
  let given = 0
  const threads = Math.min(availableParallelism(), Math.ceil(tasks.length / BATCH))
  await Promise.all(
    Array.from({ length: threads }, () => {
      const worker = new Worker(new URL('./worker-entry.mjs', import.meta.url), { workerData: data })
      return new Promise<void>((resolve, reject) => {
        worker.on('error', reject)
        worker.on('message', (done: Done) => {
          tallies.push(...done)
          progress.at(tallies.length)
          const work: Work = tasks.slice(given, given + BATCH)
          given += work.length
          if (work.length > 0) worker.postMessage(work)
          else worker.terminate().then(() => resolve(), reject)
        })
      })
    }),
  )
  return tallies.sort((a, b) => a.task.seed - b.task.seed)
}
