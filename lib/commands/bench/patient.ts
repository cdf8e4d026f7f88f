import type { Drain, PatientRecord, Report } from '../../domain/record.ts'
import { randomFor } from '../../simulate/random.ts'

const hour = 3_600_000
/** The last reading of every patient is this long before the instant of assessment. */
const restMs = hour / 2
export const asOf = '2026-03-30T14:30:00.000Z'

const drain: Drain = {
  id: 'd1',
  kind: 'nephrostomy',
  placedAt: '2025-01-06T16:00:00Z',
  bagCapacityMl: 600,
  plan: { logEveryHours: 24, dressingEveryHours: 48, flush: { volumeMl: 10, everyHours: 24 } },
}
const iso = (ms: number) => new Date(ms).toISOString()

export interface Span {
  /** Length of the record. */
  readonly days: number
  /** For so many days before its end three findings stand: a leak, broken skin and a lasting fall. 0: a quiet record. */
  readonly standingDays: number
}

/** What is told while three findings stand. */
const standing = { leak: true, skin: 'broken', volumeShare: 0.35 } as const

/**
 * A patient of the panel: one nephrostomy, four readings a day as four reports, with a flush and symptoms each morning
 * and a dressing change every second one. The same seed and span give the same record.
 */
export function patient(seed: number, { days, standingDays }: Span): PatientRecord {
  const random = randomFor(seed, 'bench')
  const usualMl = random.between(80, 130)
  const end = Date.parse(asOf) - restMs
  const start = end - days * 24 * hour
  const reports: Report[] = []
  for (let i = 1; i <= days * 4; i++) {
    const at = iso(start + i * 6 * hour)
    const troubled = i > (days - standingDays) * 4
    const volumeMl = Math.round(usualMl * random.between(0.85, 1.15) * (troubled ? standing.volumeShare : 1))
    const morning = i % 4 === 0
    reports.push({
      id: `r${i}`,
      receivedAt: iso(start + i * 6 * hour + 300_000),
      readings: [
        { drain: 'd1', at, volumeMl: morning ? volumeMl + 10 : volumeMl, appearance: 'straw', total: false },
      ],
      flushes: morning ? [{ drain: 'd1', at, volumeMl: 10, ease: 'easy' }] : [],
      dressings:
        i % 8 === 0
          ? [{ drain: 'd1', at, found: 'clean', skin: troubled ? standing.skin : 'intact', changed: true }]
          : [],
      symptoms: morning
        ? {
            at,
            temperatureC: Math.round(random.between(362, 372)) / 10,
            chills: false,
            pain: 1,
            drains: [
              { drain: 'd1', position: 'in-place', leak: troubled ? standing.leak : false, draining: true },
            ],
            general: [],
          }
        : null,
    })
  }
  return { timeZone: 'America/Denver', enrolledAt: iso(start), drains: [drain], reports, staffEvents: [] }
}
