import { stands } from '../../assessment/flag-life.ts'
import type { Assessment } from '../../domain/assessment.ts'
import type { Report } from '../../domain/record.ts'
import type { SimulatedPatient, Truth } from '../../simulate/index.ts'
import type { KeptFlag } from '../../store/flags.ts'
import { firstTelling, statesEmergency } from './first-sight.ts'
import { isAbout, LOW_TYPES, OUTPUT_CODES } from './matching.ts'
import { hoursTo, isSteady } from './simple-ways.ts'
import type { EventTally, Tally } from './tally.ts'

type Sighting = Pick<EventTally, 'foundAfterHours' | 'by' | 'outputAfterHours'>

const JUDGED_MS = 2 * 24 * 3_600_000
const keyOf = (event: Truth) => `${event.type} ${event.drain} ${event.onset}`
const unseen = (): Sighting => ({ foundAfterHours: null, by: null, outputAfterHours: null })

/** Notes when each true event first stood on the list, and whether what a report stated was seen by that report. */
export class Sightings {
  private readonly found = new Map<string, Sighting>()
  private readonly told = new Set<string>()

  constructor(private readonly tally: Tally) {}

  look(
    living: readonly KeptFlag[],
    patient: SimulatedPatient,
    assessment: Assessment,
    latest: Report | undefined,
    now: number,
  ): void {
    const standing = living.filter(stands)
    for (const event of patient.truth.events) {
      const until = event.end ? Date.parse(event.end.calledAt) : Number.POSITIVE_INFINITY
      if (Date.parse(event.onset) > now || now >= until) continue
      const about = standing.filter((flag) => isAbout(flag, event, now))
      const known = this.found.get(keyOf(event)) ?? unseen()
      if (about[0] && known.foundAfterHours === null)
        Object.assign(known, { foundAfterHours: hoursTo(event, now), by: about[0].code })
      if (known.outputAfterHours === null && about.some(({ code }) => OUTPUT_CODES.includes(code)))
        known.outputAfterHours = hoursTo(event, now)
      this.found.set(keyOf(event), known)
    }
    if (latest && Date.parse(latest.receivedAt) === now) this.lookAtReport(latest, patient, assessment)
  }

  private lookAtReport(report: Report, patient: SimulatedPatient, assessment: Assessment): void {
    if (statesEmergency(report, patient)) {
      this.tally.statedAtOnce++
      if (assessment.urgency !== 'at-once') this.tally.missedAtOnce++
    }
    for (const event of patient.truth.events) {
      if (
        event.type !== 'sudden-obstruction' ||
        !isSteady(patient, event.drain) ||
        this.told.has(keyOf(event))
      )
        continue
      if (firstTelling(patient, event)?.id !== report.id) continue
      this.told.add(keyOf(event))
      this.tally.suddenShown++
      if (this.found.get(keyOf(event))?.foundAfterHours != null) this.tally.suddenSeen++
    }
  }

  /** All events that began while the patient was followed. */
  events(patient: SimulatedPatient, stop: number): EventTally[] {
    return patient.truth.events.flatMap((event) => {
      if (Date.parse(event.onset) >= stop) return []
      const known = this.found.get(keyOf(event)) ?? unseen()
      const isFound = known.foundAfterHours !== null
      const called =
        !isFound && event.end?.by === 'own-call' ? Date.parse(event.end.calledAt) : Number.POSITIVE_INFINITY
      return [
        {
          type: event.type,
          ...known,
          ownCallAfterHours: called < stop ? hoursTo(event, called) : null,
          steady: LOW_TYPES.includes(event.type) && isSteady(patient, event.drain),
          judged: isFound || stop - Date.parse(event.onset) >= JUDGED_MS || event.end !== null,
        },
      ]
    })
  }
}
