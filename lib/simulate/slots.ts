import { reportingDays } from './adherence.ts'
import type { EventWithEnd } from './course-of-events.ts'
import { events as facts } from './parameters.ts'
import type { PlaceInTime } from './place-in-time.ts'
import { randomFor } from './random.ts'

/** A time at which the vessel is emptied, with or without a report of it; `asked`: every question is answered. */
export type Slot = {
  readonly hour: number
  readonly reported: boolean
  readonly outOfTurn: boolean
  readonly asked: boolean
}

/** When this patient empties and reports: by habit, out of turn when something happens, and when a scenario says so. */
export function slotsOf(
  seed: number,
  time: PlaceInTime,
  events: readonly EventWithEnd[],
  options: {
    adherence: number
    horizonHours: number
    logEveryHours: number
    reportAtHours: readonly number[]
    habitUntilHour: number
  },
): Slot[] {
  const { horizonHours, logEveryHours } = options
  const random = randomFor(seed, 'habit')
  const habit = random.between(6.5, 10)
  const reporting = reportingDays(seed, options.adherence, Math.ceil(horizonHours / 24) + 1)
  const silences = events.filter((event) => event.type === 'silence')
  const silent = (hour: number) =>
    silences.some((event) => hour >= event.onset && (event.end === null || hour < event.end.at))
  const firstMidnight = time.localHour(0)
  const slots: Slot[] = []
  const add = (usual: number) => {
    const hour = usual + random.normal(0, 0.6)
    const day = Math.floor((usual + firstMidnight) / 24)
    if (hour > 0 && hour < Math.min(horizonHours, options.habitUntilHour))
      slots.push({
        hour,
        reported: (reporting[day] ?? false) && !silent(hour),
        outOfTurn: false,
        asked: false,
      })
  }
  time.daily(habit, 0, horizonHours).forEach((morning, day) => {
    if (logEveryHours >= 48 && day % Math.round(logEveryHours / 24) !== 0) return
    add(morning)
    for (let later = logEveryHours; later < 24; later += logEveryHours) add(morning + later)
  })
  for (const event of events) {
    const chance = randomFor(seed, 'out-of-turn', event.type, event.drain ?? 0)
    const acute =
      event.type === 'drain-out' ||
      event.type === 'bleeding' ||
      event.type === 'infection' ||
      event.type === 'sudden-obstruction'
    const hour = event.onset + chance.between(1, 3) + (event.type === 'sudden-obstruction' ? 7 : 0)
    const open = event.end === null || hour < event.end.at
    if (
      acute &&
      chance.chance(facts.reportsOutOfTurn.value) &&
      open &&
      hour > 0 &&
      hour < Math.min(horizonHours, options.habitUntilHour) &&
      !silent(hour)
    )
      slots.push({ hour, reported: true, outOfTurn: true, asked: false })
  }
  for (const hour of options.reportAtHours) slots.push({ hour, reported: true, outOfTurn: true, asked: true })
  return slots.sort((a, b) => a.hour - b.hour)
}
