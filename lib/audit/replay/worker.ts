import { parentPort, workerData } from 'node:worker_threads'
import { snapshot } from '../../store/index.ts'
import { historiesOf } from '../../store/replay-history.ts'
import { stored } from '../../store/rows.ts'
import { addOutcome, noSums, type Sums } from './collect.ts'
import { outcomeOf, type Task } from './outcome.ts'
import type { Batch } from './run.ts'

const task = workerData as Task
const port = parentPort
if (!port) throw new Error('replay: this file is started as a worker thread')

/** Reads the histories of some patients and adds up what is told of them. Whoever cannot be replayed is counted as such. */
async function work({ ids, judged, events }: Batch): Promise<Sums> {
  const sums = noSums()
  const histories = await snapshot((tx) => historiesOf(tx, task.clinicId, ids, stored(new Date(task.until))))
  const verdicts = new Map(judged)
  const outside = new Map(events)
  for (const history of histories)
    try {
      const { patientId } = history
      addOutcome(sums, outcomeOf(history, verdicts.get(patientId) ?? [], outside.get(patientId) ?? [], task))
    } catch {
      sums.unreadable++
    }
  return sums
}

port.on('message', (batch: Batch) => {
  work(batch).then(
    (sums) => port.postMessage({ sums, count: batch.ids.length }),
    (error) => {
      throw error
    },
  )
})
port.postMessage({ sums: null, count: 0 })
