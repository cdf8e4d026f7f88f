import type { Report } from '../../domain/record.ts'
import type { SimulatedPatient, Truth } from '../../simulate/index.ts'

const HOUR_MS = 3_600_000
const NOTHING_ML_PER_HOUR = 10 / 8

/** Whether a report states what must stand at once: a drain that is out (not a bulb), or an emergency symptom. */
export function statesEmergency(report: Report, patient: SimulatedPatient): boolean {
  const grave = new Set(['short-of-breath', 'chest-pain', 'fainted', 'confused', 'heavy-bleeding'])
  if (report.symptoms?.general?.some((symptom) => grave.has(symptom))) return true
  const bulbs = new Set(patient.enrolment.drains.filter(({ kind }) => kind === 'bulb').map(({ id }) => id))
  return (
    report.symptoms?.drains?.some(({ drain, position }) => position === 'out' && !bulbs.has(drain)) ?? false
  )
}

/**
 * The first report that could show a sudden stop: it says that nothing drains, or its reading covers at
 * least 8 h that lie wholly after the onset and states next to nothing.
 */
export function firstTelling(patient: SimulatedPatient, event: Truth): Report | null {
  const onset = Date.parse(event.onset)
  const until = event.end ? Date.parse(event.end.calledAt) : Number.POSITIVE_INFINITY
  let previous = Number.NEGATIVE_INFINITY
  for (const report of patient.reports) {
    const received = Date.parse(report.receivedAt)
    if (received >= until) return null
    if (
      received >= onset &&
      report.symptoms?.drains?.some(({ drain, draining }) => drain === event.drain && draining === false)
    )
      return report
    for (const reading of report.readings ?? []) {
      if (reading.drain !== event.drain) continue
      const at = Date.parse(reading.at)
      if (at > received) continue
      const hours = (at - previous) / HOUR_MS
      if (
        previous >= onset &&
        hours >= 8 &&
        reading.volumeMl !== null &&
        reading.volumeMl <= NOTHING_ML_PER_HOUR * hours
      )
        return report
      previous = Math.max(previous, at)
    }
  }
  return null
}
