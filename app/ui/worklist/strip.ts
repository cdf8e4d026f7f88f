import type { Instant } from '@/lib/domain/instant.ts'
import { clockTime, localParts } from '@/lib/domain/local-time.ts'
import { type Urgency, urgencyRank } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'

const HOUR_MS = 3_600_000
export const STRIP_HOURS = 12

export type StripMark = {
  patientId: string
  name: string
  at: Instant
  urgency: Urgency
  share: number
  lane: number
  /** How many rows stand behind the mark: more than one only where they are too many to draw each. */
  count: number
}
export type Strip = {
  overdue: { count: number; oldestMs: number; firstId: string | null }
  later: { count: number; next: Instant | null; firstId: string | null }
  marks: StripMark[]
  hours: { share: number; text: string }[]
}

type Row = Pick<WorklistRow, 'patientId' | 'name' | 'urgency' | 'actBy'>

/** Closer than this share of the strip two marks would touch: the later one moves to a lane beside. */
const TOUCHING = 0.009
/** With more rows than this ahead, those of one urgency within ten minutes share a mark. */
const CROWD = 120
const SLOTS = STRIP_HOURS * 6

/**
 * The next twelve hours: where on the strip each row's act by falls (`share` 0 is now, 1 is twelve hours on),
 * what is past it, what comes later, and the clinic's full hours. Of two marks at one time the sooner urgency
 * stands first.
 */
export function stripOf(rows: readonly Row[], now: number, zone: string): Strip {
  const due = rows
    .flatMap((row) => (row.actBy === null ? [] : [{ row, ms: Date.parse(row.actBy), at: row.actBy }]))
    .toSorted((a, b) => a.ms - b.ms || urgencyRank[b.row.urgency] - urgencyRank[a.row.urgency])
  const past = due.filter(({ ms }) => ms <= now)
  const later = due.filter(({ ms }) => ms > now + STRIP_HOURS * HOUR_MS)
  const ahead = due.filter(({ ms }) => ms > now && ms <= now + STRIP_HOURS * HOUR_MS)

  const isCrowd = ahead.length > CROWD
  const shared = new Map<string, StripMark>()
  const marks: StripMark[] = []
  for (const { row, ms, at } of ahead) {
    const share = (ms - now) / (STRIP_HOURS * HOUR_MS)
    const slot = `${Math.floor(share * SLOTS)} ${row.urgency}`
    const same = isCrowd ? shared.get(slot) : undefined
    if (same) {
      same.count += 1
      continue
    }
    const before = marks.at(-1)
    const lane = before && share - before.share < TOUCHING ? before.lane + 1 : 0
    const mark = { patientId: row.patientId, name: row.name, at, urgency: row.urgency, share, lane, count: 1 }
    shared.set(slot, mark)
    marks.push(mark)
  }
  return {
    overdue: {
      count: past.length,
      oldestMs: past[0] ? now - past[0].ms : 0,
      firstId: past[0]?.row.patientId ?? null,
    },
    later: { count: later.length, next: later[0]?.at ?? null, firstId: later[0]?.row.patientId ?? null },
    marks,
    hours: fullHours(now, zone),
  }
}

/** The clinic's full hours within the strip; by its wall clock, so also where its offset is not a full hour. */
function fullHours(now: number, zone: string): Strip['hours'] {
  const { minute, second } = localParts(now, zone)
  const first = now + (minute === 0 && second === 0 ? 0 : HOUR_MS - (minute * 60 + second) * 1000)
  return Array.from({ length: STRIP_HOURS + 1 }, (_, i) => first + i * HOUR_MS)
    .map((ms) => ({ share: (ms - now) / (STRIP_HOURS * HOUR_MS), text: clockTime(ms, zone) }))
    .filter(({ share }) => share >= 0 && share <= 0.985)
}
