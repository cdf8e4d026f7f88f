import type { FindingCode, Urgency } from '../../domain/words.ts'
import type { TrueEventType } from '../../simulate/index.ts'
import type { Task } from './panels.ts'
import type { WayTally } from './simple-ways.ts'

/** One true event, and how it came to light. */
export type EventTally = {
  readonly type: TrueEventType
  /** Hours from onset to the first flag about it; null: the patient's own call or a visit came first, or nothing. */
  foundAfterHours: number | null
  by: FindingCode | null
  /** Hours to the patient's own call, where that came before any flag. */
  ownCallAfterHours: number | null
  /** Of a fall in a steady drain: the same, by output findings alone. */
  outputAfterHours: number | null
  readonly steady: boolean
  /** Followed until help came, or at least two days: what happens in the last hours cannot be judged. */
  readonly judged: boolean
}

export type FlagTally = { opened: number; right: number }

/** All that is counted of one patient: small, and safe to send between threads. */
export type Tally = {
  readonly task: Task
  days: number
  steadyDrainDays: number
  clinicalRowDays: number
  upkeepRowDays: number
  calls: number
  callsAtNight: number
  minutes: number
  assessments: number
  readonly flags: Partial<Record<FindingCode, FlagTally>>
  /** False openings of output findings on steady drains. */
  outputFalse: number
  /** Days on which the row of this patient stood in the clinical part, by its most urgent flag. */
  readonly rowDaysByUrgency: Partial<Record<Urgency, number>>
  readonly events: EventTally[]
  /** Reports that stated an emergency, and those after which nothing stood at once. */
  statedAtOnce: number
  missedAtOnce: number
  /** Sudden obstructions whose first telling reading came, and those flagged by it. */
  suddenShown: number
  suddenSeen: number
  ways: WayTally[]
}

export const emptyTally = (task: Task): Tally => ({
  task,
  days: 0,
  steadyDrainDays: 0,
  clinicalRowDays: 0,
  upkeepRowDays: 0,
  calls: 0,
  callsAtNight: 0,
  minutes: 0,
  assessments: 0,
  flags: {},
  outputFalse: 0,
  rowDaysByUrgency: {},
  events: [],
  statedAtOnce: 0,
  missedAtOnce: 0,
  suddenShown: 0,
  suddenSeen: 0,
  ways: [],
})
