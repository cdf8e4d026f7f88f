import { parentPort, workerData } from 'node:worker_threads'
import { type Batch, workOn } from './batch.ts'
import type { Task } from './outcome.ts'

const port = parentPort
if (!port) throw new Error('replay: this file is started as a worker thread')

// One after the other, though the next is there already.
let work = Promise.resolve()
port.on('message', (batch: Batch) => {
  work = work.then(async () => {
    port.postMessage({ sums: await workOn(workerData as Task, batch), count: batch.ids.length })
  })
})
port.postMessage({ sums: null, count: 0 })
