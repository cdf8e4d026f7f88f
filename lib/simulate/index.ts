export type { PlannedEvent } from './draw-events.ts'
export {
  type CourseName,
  type SimulatedPatient,
  type SimulationOptions,
  simulatePatient,
  type Truth,
} from './patient.ts'
export { type Random, randomFor } from './random.ts'
export { recordAsOf } from './record-as-of.ts'
export { type Intervention, TRUE_EVENT_TYPES, type TrueEventType } from './truth.ts'
