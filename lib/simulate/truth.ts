/** What can happen to a simulated patient, each with an instant from which it is true. */
export const TRUE_EVENT_TYPES = [
  'sudden-obstruction',
  'gradual-obstruction',
  'drain-out',
  'drain-moved',
  'infection',
  'bleeding',
  'fistula',
  'recovery',
  'silence',
] as const
export type TrueEventType = (typeof TRUE_EVENT_TYPES)[number]

/** One true event, in hours from the start of the simulation. Nobody at the clinic sees this. */
export type TrueEvent = {
  readonly type: TrueEventType
  /** Index of the drain; null: the whole patient. */
  readonly drain: number | null
  readonly onset: number
  /** From when the output, if it falls, is below half of what it would be. */
  readonly halfFrom: number | null
  /** Hours over which the output falls to its residue; 0 at once. */
  readonly fallHours: number
  /** What still comes, as a share of usual; for a fistula, mL/day on top. */
  readonly residue: number
  readonly feverFrom: number | null
  readonly feverPeakC: number
  readonly leakFrom: number | null
  readonly painFrom: number | null
  readonly painAdd: number
  /** The patient notices and says so when asked. */
  readonly noticed: boolean
  /** When the patient or helper calls on their own; null: never. */
  readonly ownCall: number | null
  /** When a visit finds it at the latest; null: never. */
  readonly visit: number | null
  /** Hours from the call to the help. */
  readonly fixAfter: number
}

/** In a call the clinic learnt of one event that was true then, and helps. */
export type Intervention = {
  readonly at: string
  readonly drain: string | null
  readonly type: TrueEventType
}
/** The same in hours from the start, with the drain’s index. */
export type Found = { readonly at: number; readonly drain: number | null; readonly type: TrueEventType }

/** When help came, and who found it: the patient’s own call, a visit, or the clinic. */
export type EventEnd = {
  readonly at: number
  readonly calledAt: number
  readonly by: 'own-call' | 'visit' | 'clinic'
}

/**
 * The end of an event: the first of own call, visit and intervention, and the help after it.
 * Null while nobody knows. A recovery ends with the tube’s removal.
 */
export function endOf(event: TrueEvent, found: readonly Found[]): EventEnd | null {
  let calledAt = Number.POSITIVE_INFINITY
  let by: EventEnd['by'] = 'clinic'
  const take = (at: number, finder: EventEnd['by']) => {
    if (at >= event.onset && at < calledAt) {
      calledAt = at
      by = finder
    }
  }
  for (const { at, drain, type } of found)
    if (type === event.type && drain === event.drain) take(at, 'clinic')
  if (event.ownCall !== null) take(event.ownCall, 'own-call')
  if (event.visit !== null) take(event.visit, 'visit')
  return calledAt === Number.POSITIVE_INFINITY ? null : { at: calledAt + event.fixAfter, calledAt, by }
}
