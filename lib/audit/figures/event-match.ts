import type { EventMatch, OutsideEvent, OutsideEventKind } from '../../domain/outside-event.ts'
import type { FindingCode } from '../../domain/words.ts'

/** Within how many hours before an event a flag counts as having found it (local choice). */
export const FOUND_WITHIN_HOURS = 168

const HOUR_MS = 3_600_000

/** Clinical findings that ask for a call because something may be wrong. Upkeep, and what says that all goes well, answer nothing. */
const worrying: readonly FindingCode[] = [
  'drain-out',
  'drain-moved',
  'emergency-symptoms',
  'unwell',
  'output-stopped',
  'output-decline',
  'output-surge',
  'bleeding',
  'infection-signs',
  'blocked-and-infected',
  'leak',
  'severe-pain',
  'cap-failing',
  'flush-blocked',
  'flush-retained',
]

/**
 * Which findings would have told of which event (local choice: what a clinician would look for). An event that names no
 * cause, such as a visit to an emergency department, is answered by any that may have been it.
 */
export const answering: Readonly<Record<OutsideEventKind, readonly FindingCode[]>> = {
  'emergency-visit': worrying,
  admission: worrying,
  death: worrying,
  other: worrying,
  exchange: [
    'drain-out',
    'drain-moved',
    'output-stopped',
    'output-decline',
    'flush-blocked',
    'flush-retained',
    'leak',
    'blocked-and-infected',
  ],
  obstruction: [
    'output-stopped',
    'output-decline',
    'flush-blocked',
    'flush-retained',
    'leak',
    'blocked-and-infected',
    'cap-failing',
    'severe-pain',
  ],
  infection: ['infection-signs', 'blocked-and-infected', 'unwell', 'emergency-symptoms', 'cap-failing'],
  dislodgement: ['drain-out', 'drain-moved', 'output-stopped', 'output-decline', 'leak'],
  bleeding: ['bleeding', 'emergency-symptoms', 'unwell'],
  leak: ['leak', 'drain-moved', 'drain-out'],
}

/** An event, with when its patient had last been heard before it. */
export type EventToMatch = Pick<OutsideEvent, 'id' | 'patientId' | 'drain' | 'kind' | 'at'> & {
  heardAt: string | null
}
/** A flag as it opened, or would have; `id` is null where it never stood. */
export type FlagToMatch = {
  id: string | null
  patientId: string
  drain: string | null
  code: FindingCode
  openedAt: string
}

/**
 * How each event stands to the flags before it: the earliest flag of the same patient, and of the same drain where both name one,
 * that answers its kind and opened in the 168 h before it; or none. The order of both lists changes nothing.
 */
export function matchEvents(events: readonly EventToMatch[], flags: readonly FlagToMatch[]): EventMatch[] {
  const ofPatient = new Map<string, { flag: FlagToMatch; ms: number }[]>()
  const asked = new Set(events.map(({ patientId }) => patientId))
  for (const flag of flags) {
    if (!asked.has(flag.patientId)) continue
    const own = ofPatient.get(flag.patientId)
    const entry = { flag, ms: Date.parse(flag.openedAt) }
    if (own) own.push(entry)
    else ofPatient.set(flag.patientId, [entry])
  }
  return events.map(({ id, patientId, drain, kind, at, heardAt }) => {
    const ms = Date.parse(at)
    const found = (ofPatient.get(patientId) ?? [])
      .filter(
        ({ flag, ms: opened }) =>
          opened <= ms &&
          ms - opened <= FOUND_WITHIN_HOURS * HOUR_MS &&
          answering[kind].includes(flag.code) &&
          (drain === null || flag.drain === null || flag.drain === drain),
      )
      .reduce<{ flag: FlagToMatch; ms: number } | null>(
        (first, one) =>
          first === null ||
          one.ms < first.ms ||
          (one.ms === first.ms && (one.flag.id ?? '') < (first.flag.id ?? ''))
            ? one
            : first,
        null,
      )
    return {
      event: id,
      flagId: found?.flag.id ?? null,
      hoursAhead: found ? (ms - found.ms) / HOUR_MS : null,
      hoursSinceHeard: heardAt === null ? null : (ms - Date.parse(heardAt)) / HOUR_MS,
    }
  })
}
