import type { PatientRecord, Report, StaffEvent } from '../domain/record.ts'
import { type DrainKind, usualCourse } from '../domain/words.ts'
import { courseOfEvents } from './course-of-events.ts'
import { drawEvents, makeEvent, type PlannedEvent } from './draw-events.ts'
import { outputOf } from './output.ts'
import { placeInTime } from './place-in-time.ts'
import { drawDrains, type Wanted } from './population.ts'
import { randomFor } from './random.ts'
import { type MissedFate, reportsOf } from './reports.ts'
import { slotsOf } from './slots.ts'
import type { EventEnd, Intervention, TrueEventType } from './truth.ts'

export type SimulationOptions = Wanted & {
  /** First instant: enrolment. */
  readonly start: string
  readonly days: number
  readonly timeZone?: string
  /** Mean share of days with a report, over all patients; 1 is every day. */
  readonly adherence?: number
  /** By chance, none at all, or exactly these. */
  readonly events?: 'drawn' | 'none' | readonly PlannedEvent[]
  /** Times at which the patient reports whatever the habit, and answers every question; hours from the start. */
  readonly reportAtHours?: readonly number[]
  /** From this hour on the habit stops: nothing is emptied or reported but at the times above. */
  readonly habitUntilHour?: number
  /** What always becomes of volumes that were not reported in their time. */
  readonly missed?: MissedFate
  /** Calls in which the clinic learnt what was true; everything before them stays as it was. */
  readonly interventions?: readonly Intervention[]
}

/** One true event, as instants. */
export type Truth = {
  readonly type: TrueEventType
  readonly drain: string | null
  readonly onset: string
  /** From when less than half comes; null where the output does not fall. */
  readonly halfFrom: string | null
  readonly feverFrom: string | null
  /** Null: it lasts to the end of the simulation. */
  readonly end: { readonly at: string; readonly calledAt: string; readonly by: EventEnd['by'] } | null
  /** When the patient would call on their own, were nothing done; null: never. */
  readonly ownCall: string | null
}

export type CourseName =
  | 'steady'
  | 'resolving'
  | 'blocking slowly'
  | 'blocking at once'
  | 'slipped'
  | 'infected'
  | 'bleeding'
  | 'fistula'
  | 'silent'

export type SimulatedPatient = {
  readonly truth: {
    readonly course: CourseName
    readonly events: readonly Truth[]
    /** Reports with an entry that is not what was meant. */
    readonly mistyped: ReadonlySet<string>
    readonly trueMl: (drain: string, from: string, to: string) => number
  }
  readonly enrolment: Omit<PatientRecord, 'reports' | 'staffEvents'>
  /** In the order of receipt. */
  readonly reports: readonly Report[]
  readonly staffEvents: readonly StaffEvent[]
  /** When the last tube is out; null: some tube is in to the end. */
  readonly leftAt: string | null
}

/**
 * One patient with a drain at home, with a known truth: the same seed and options always give the
 * same patient. With `interventions`, everything before the first of them stays as it was.
 * @example simulatePatient(11, { start: '2026-03-02T10:00:00Z', days: 60, adherence: 0.56 })
 */
export function simulatePatient(seed: number, options: SimulationOptions): SimulatedPatient {
  const timeZone = options.timeZone ?? 'America/Denver'
  const time = placeInTime(options.start, timeZone)
  const horizonHours = options.days * 24
  const who = randomFor(seed, 'who')
  const usualPain = who.weighted<number>([
    [0, 45],
    [1, 25],
    [2, 20],
    [3, 10],
  ])
  const drains = drawDrains(who, time, options)
  const wanted = options.events ?? 'drawn'
  const drawn =
    wanted === 'drawn'
      ? drawEvents(seed, drains, horizonHours)
      : wanted === 'none'
        ? []
        : wanted.map((plan, i) => makeEvent(plan, drains, randomFor(seed, 'event', plan.type, i)))
  const indexOf = (id: string | null) =>
    id === null ? null : drains.findIndex(({ drain }) => drain.id === id)
  const found = (options.interventions ?? []).map(({ at, drain, type }) => ({
    at: time.hourOf(at),
    drain: indexOf(drain),
    type,
  }))
  const course = courseOfEvents(seed, drains, drawn, found, horizonHours, time)
  const outputs = drains.map((simulated, i) =>
    outputOf(seed, i, simulated, course.events, course.removedAt[i] ?? null, horizonHours, time),
  )
  const slots = slotsOf(seed, time, course.events, {
    adherence: options.adherence ?? 0.56,
    horizonHours,
    logEveryHours: drains[0]?.drain.plan.logEveryHours ?? 24,
    reportAtHours: options.reportAtHours ?? [],
    habitUntilHour: options.habitUntilHour ?? Number.POSITIVE_INFINITY,
  })
  const { reports, mistyped } = reportsOf(
    { seed, time, course, outputs, usualPain, horizonHours, missed: options.missed ?? null },
    drains,
    slots,
  )
  const removals = course.removedAt.flatMap((hour) => (hour === null ? [] : [hour]))
  const events = course.events.map(
    (event): Truth => ({
      type: event.type,
      drain: event.drain === null ? null : (drains[event.drain]?.drain.id ?? null),
      onset: time.iso(event.onset),
      halfFrom: event.halfFrom === null ? null : time.iso(event.halfFrom),
      feverFrom: event.feverFrom === null ? null : time.iso(event.feverFrom),
      end: event.end && {
        at: time.iso(event.end.at),
        calledAt: time.iso(event.end.calledAt),
        by: event.end.by,
      },
      ownCall: event.ownCall === null ? null : time.iso(event.ownCall),
    }),
  )
  return {
    truth: {
      course: nameOf(events, drains[0]?.drain.kind ?? 'nephrostomy'),
      events,
      mistyped,
      trueMl: (drain, from, to) =>
        outputs[indexOf(drain) ?? 0]?.between(time.hourOf(from), time.hourOf(to)) ?? 0,
    },
    enrolment: {
      timeZone,
      enrolledAt: time.iso(0),
      usual: { pain: usualPain, general: [] },
      drains: drains.map(({ drain }) => drain),
    },
    reports,
    staffEvents: course.staffEvents.map(({ hour: _, ...event }) => event),
    leftAt: removals.length === drains.length ? time.iso(Math.max(...removals)) : null,
  }
}

const NAMES: Readonly<Record<TrueEventType, CourseName | null>> = {
  'gradual-obstruction': 'blocking slowly',
  'sudden-obstruction': 'blocking at once',
  'drain-out': 'slipped',
  'drain-moved': 'slipped',
  infection: 'infected',
  bleeding: 'bleeding',
  fistula: 'fistula',
  silence: 'silent',
  recovery: null,
}

function nameOf(events: readonly Truth[], kind: DrainKind): CourseName {
  for (const event of events) {
    const name = NAMES[event.type]
    if (name) return name
  }
  return usualCourse[kind]
}
