import { adherence } from '../../simulate/parameters.ts'

/** One simulated patient to follow. */
export type Task = {
  readonly seed: number
  readonly panel: PanelName
  readonly adherence: number
  readonly eventFree: boolean
}
export type PanelName = '80%' | '56%' | '39%' | 'event-free'

const [well, usual, poor] = adherence.panels.value

/** Of ten patients four report on 56% of days, two on 80%, two on 39%, and two, at 56%, have no event but recovery. */
const PLAN: readonly Omit<Task, 'seed'>[] = [
  { panel: '56%', adherence: usual, eventFree: false },
  { panel: '80%', adherence: well, eventFree: false },
  { panel: '56%', adherence: usual, eventFree: false },
  { panel: '39%', adherence: poor, eventFree: false },
  { panel: 'event-free', adherence: usual, eventFree: true },
  { panel: '56%', adherence: usual, eventFree: false },
  { panel: '80%', adherence: well, eventFree: false },
  { panel: '56%', adherence: usual, eventFree: false },
  { panel: '39%', adherence: poor, eventFree: false },
  { panel: 'event-free', adherence: usual, eventFree: true },
]

export const tasksOf = (patients: number, firstSeed: number): Task[] =>
  Array.from({ length: patients }, (_, i) => ({
    ...(PLAN[i % PLAN.length] as Omit<Task, 'seed'>),
    seed: firstSeed + i,
  }))
