import { parentPort, workerData } from 'node:worker_threads'
import type { RuleSet } from '../../domain/ruleset.ts'
import { followPatient } from './follow.ts'
import type { Task } from './panels.ts'
import type { Tally } from './tally.ts'

/** What a worker is given at its start. It asks for work by sending what it has done, nothing at first. */
export type WorkerData = { readonly days: number; readonly rules: RuleSet }
export type Done = readonly Tally[]
export type Work = readonly Task[]

const { days, rules } = workerData as WorkerData
const port = parentPort
if (!port) throw new Error('evaluate: this file is started as a worker thread')
port.on('message', (work: Work) => {
  port.postMessage(work.map((task) => followPatient(task, days, rules)) satisfies Done)
})
port.postMessage([] satisfies Done)
