import type { PatientRecord } from '../../domain/record.ts'

/**
 * The facts that the general engine decides on, worked out beforehand and outside of its time: of a record of the bench,
 * whose one drain is a nephrostomy with four readings a day (patient.ts).
 */
export function factsOf(
  record: PatientRecord,
  now: string,
  baselineMl: number | null,
): Record<string, unknown> {
  const at = Date.parse(now)
  const hoursSince = (instant: string) => (at - Date.parse(instant)) / 3_600_000
  const reports = [...record.reports].sort((a, b) => Date.parse(a.receivedAt) - Date.parse(b.receivedAt))
  const readings = reports.flatMap((report) => report.readings ?? [])
  const flushes = reports.flatMap((report) => report.flushes ?? [])
  const dressings = reports.flatMap((report) => report.dressings ?? [])
  const symptoms = reports.flatMap((report) => (report.symptoms ? [report.symptoms] : []))
  const newest = symptoms.at(-1)
  const drain = newest?.drains?.[0]
  const lastFour = readings.slice(-4).reduce((sum, reading) => sum + (reading.volumeMl ?? 0), 0)
  const last24Ml = lastFour - 10
  const chainMl = readings.slice(-2).reduce((sum, reading) => sum + (reading.volumeMl ?? 0), 0) - 10
  const base = baselineMl ?? 0
  return {
    kind: 'nephrostomy',
    course: 'steady',
    capped: false,
    inward: false,
    onlyKidney: false,
    position: drain?.position ?? 'in-place',
    leak: drain?.leak ?? false,
    draining: drain?.draining ?? true,
    temperature: newest?.temperatureC ?? 37,
    chills: newest?.chills ?? false,
    pain: newest?.pain ?? 0,
    painStep: (newest?.pain ?? 0) - (symptoms.at(-2)?.pain ?? 0),
    general: newest?.general ?? [],
    appearance: readings.at(-1)?.appearance ?? 'clear',
    appearanceBefore: readings.at(-2)?.appearance ?? 'clear',
    hoursSinceTube: hoursSince(record.drains[0]?.placedAt ?? now),
    last24Ml,
    shareOfUsual: base === 0 ? 1 : last24Ml / base,
    belowUsualMl: base - last24Ml,
    aboveUsualMl: last24Ml - base,
    chainMlPer8h: (chainMl * 8) / 12,
    dayBeforeShare: 1,
    surgeHours: 0,
    newestReadingMl: readings.at(-1)?.volumeMl ?? 0,
    bagShare: (readings.at(-1)?.volumeMl ?? 0) / 600,
    ounceRatio: base === 0 ? 1 : base / 4 / Math.max(1, readings.at(-1)?.volumeMl ?? 1),
    readingAheadMinutes: -5,
    slowShift: false,
    netDayMl: last24Ml,
    netDayBeforeMl: base,
    ease: flushes.at(-1)?.ease ?? 'easy',
    flushIntervals: hoursSince(flushes.at(-1)?.at ?? record.enrolledAt) / 24,
    dressingFound: dressings.at(-1)?.found ?? 'clean',
    dressingChanged: dressings.at(-1)?.changed ?? false,
    dressingHoursOver: hoursSince(dressings.at(-1)?.at ?? record.enrolledAt) - 48,
    skin: dressings.at(-1)?.skin ?? 'intact',
    logHoursOver: hoursSince(readings.at(-1)?.at ?? record.enrolledAt) - 24,
    daysToExchange: 1000,
    exchangeBooked: false,
    feverWithin48h: false,
    tubeTrouble: (drain?.leak ?? false) || drain?.position !== 'in-place',
  }
}
