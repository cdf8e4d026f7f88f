import { median } from 'simple-statistics'
import { now as clock } from '../clock.ts'
import { localDate } from '../domain/local-time.ts'
import { type FirstAttempt, type HourNumbers, hoursOf, type Numbers } from '../domain/numbers.ts'
import type { StaffMember } from '../domain/staff.ts'
import { urgencyRank } from '../domain/words.ts'
import type { WorklistRow } from '../domain/worklist.ts'
import { snapshot } from '../store/index.ts'
import { type Hour, numbersPer, type Wait, waitsOf } from '../store/numbers.ts'
import { stored } from '../store/rows.ts'
import { composeWorklist } from './read-worklist.ts'

const TIERS = ['at-once', 'within-1h', 'within-24h', 'within-3d'] as const

/**
 * The clinic's day in numbers. What waits is counted over the rows that stand, so that it says what the worklist says;
 * the day is counted by the database. No patient's record is read, and none is named.
 */
export function readNumbers({ clinicId }: StaffMember, now: Date = clock()): Promise<Numbers> {
  const at = stored(now)
  return snapshot(async (tx): Promise<Numbers> => {
    const { clinic, rows } = await composeWorklist(tx, clinicId, now)
    const { name, timeZone, demo } = clinic
    const date = localDate(at, timeZone)
    const hours = hoursOf(date, timeZone)
    const counted = await numbersPer(tx, clinicId, hours)
    const waits = await waitsOf(tx, clinicId, hours[0]?.from ?? at, hours.at(-1)?.until ?? at)
    const upkeep = rows.filter(({ part }) => part === 'upkeep')
    return {
      asOf: at,
      clinic: { name, timeZone, demo },
      date,
      waiting: TIERS.map((urgency) => waiting(rows, urgency)),
      upkeep: { rows: upkeep.length, overdue: upkeep.filter(({ overdue }) => overdue).length },
      first: firstAttempts(waits.rows),
      hours: hours.map((hour) => hourNumbers(hour, counted.rows, at)),
    }
  })
}

function waiting(rows: readonly WorklistRow[], urgency: (typeof TIERS)[number]) {
  const own = rows.filter((row) => row.part === 'clinical' && row.urgency === urgency)
  return { urgency, rows: own.length, overdue: own.filter(({ overdue }) => overdue).length }
}

const MINUTE_MS = 60_000

/** The median over what was tried, of all openings and of each urgency. */
export const firstAttempts = (waits: readonly Wait[]): FirstAttempt[] =>
  (['all', ...TIERS] as const).map((urgency) => {
    const own = waits.filter(({ rank }) => urgency === 'all' || rank === urgencyRank[urgency])
    const minutes = own.flatMap(({ openedAt, triedAt }) =>
      triedAt === null ? [] : [(Date.parse(triedAt) - Date.parse(openedAt)) / MINUTE_MS],
    )
    return {
      urgency,
      opened: own.length,
      tried: minutes.length,
      medianMinutes: minutes.length > 0 ? median(minutes) : null,
    }
  })

/** An hour that lies ahead is not known yet, which is not none. */
function hourNumbers(
  { from, label }: { from: string; label: string },
  counted: readonly Hour[],
  now: string,
): HourNumbers {
  const found = counted.find((hour) => hour.from === from)
  if (from > now || !found) return { from, label, opened: null, attempts: null, reached: null }
  const { opened, attempts, reached } = found
  return { from, label, opened, attempts, reached }
}
