const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

/** A simulated stretch of time: hours count from its start, and know the local hour of the zone. */
export type PlaceInTime = {
  /** Instant of an hour, rounded to the minute: nobody notes seconds. */
  iso(hour: number): string
  hourOf(instant: string): number
  /** Hour of the local day, 0 to 24. */
  localHour(hour: number): number
  /** The hours at which the local clock shows `localHour`, one a day, between two hours. */
  daily(localHour: number, from: number, to: number): number[]
}

/**
 * The zone's offset is looked up once per UTC day: on the day of a clock change a habit may stand an
 * hour off for some hours, which is how people live through that day anyway.
 */
export function placeInTime(start: string, timeZone: string): PlaceInTime {
  const startMs = Date.parse(start)
  const offsetOf = offsetsOf(timeZone)
  const localHour = (hour: number) => {
    const ms = startMs + hour * HOUR_MS
    return mod((ms + offsetOf(ms)) / HOUR_MS, 24)
  }
  return {
    iso: (hour) => new Date(Math.round((startMs + hour * HOUR_MS) / 60_000) * 60_000).toISOString(),
    hourOf: (instant) => (Date.parse(instant) - startMs) / HOUR_MS,
    localHour,
    daily: (wanted, from, to) => {
      const hours: number[] = []
      for (let day = from - 24; day < to + 24; day += 24) {
        const hour = day - mod(localHour(day) - wanted + 12, 24) + 12
        const last = hours.at(-1)
        if (hour >= from && hour < to && (last === undefined || hour - last > 12)) hours.push(hour)
      }
      return hours
    },
  }
}

const caches = new Map<string, (ms: number) => number>()

function offsetsOf(timeZone: string): (ms: number) => number {
  const known = caches.get(timeZone)
  if (known) return known
  const format = new Intl.DateTimeFormat('en-US', { timeZone, timeZoneName: 'longOffset' })
  const offsets = new Map<number, number>()
  const offsetOf = (ms: number) => {
    const day = Math.floor(ms / DAY_MS)
    let offset = offsets.get(day)
    if (offset === undefined) {
      const name = format.formatToParts(ms).find((part) => part.type === 'timeZoneName')?.value ?? 'GMT'
      const [, sign, hours, minutes] = /GMT([+-])(\d+):(\d+)/.exec(name) ?? []
      offset = sign ? (sign === '-' ? -1 : 1) * (Number(hours) * HOUR_MS + Number(minutes) * 60_000) : 0
      offsets.set(day, offset)
    }
    return offset
  }
  caches.set(timeZone, offsetOf)
  return offsetOf
}

const mod = (value: number, by: number) => ((value % by) + by) % by
