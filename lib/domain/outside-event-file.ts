import { z } from 'zod'
import type { ImportColumn } from './import-columns.ts'
import { LineFault } from './import-file.ts'
import { Instant } from './instant.ts'
import { OutsideEventKind } from './outside-event.ts'

const column = <Name extends string>(name: Name, isNeeded: boolean, about: string, accepted: string) => ({
  name,
  isNeeded,
  about,
  accepted,
})

/** The columns of a file of outside events, in any order. docs/record-format.md shows the same table. */
export const eventColumns = [
  column(
    'record_number',
    true,
    'whose event it is: the record number of the chart',
    'a record number of this clinic',
  ),
  column('kind', true, 'what happened', OutsideEventKind.options.join(', ')),
  column(
    'at',
    true,
    'when it happened',
    '2026-03-02 08:05 in the patient’s zone, or with an offset: 2026-03-02T08:05:00-07:00',
  ),
  column(
    'drain',
    false,
    'which drain it concerns; left empty where none or not known',
    'its plain name, or its number in the order of enrolment: 1, 2',
  ),
  column('note', false, 'what else is known', 'at most 2000 characters'),
] satisfies readonly ImportColumn[]
export type EventColumnName = (typeof eventColumns)[number]['name']

/** What a file of outside events holds, and what became of it. Nothing is stored while one line is at fault. */
export const EventFileOutcome = z.strictObject({
  dryRun: z.boolean(),
  /** Lines that say something, the header not counted. */
  lines: z.number(),
  patients: z.number(),
  /** New events: stored, or, of a dry run, to be stored. */
  events: z.number(),
  /** Patients whose follow-up ends with a death among the new events. */
  ends: z.number(),
  /** Lines that were said before, in this file or elsewhere: they add nothing. */
  repeated: z.number(),
  faults: z.array(LineFault),
  /** When this very file was taken in before; it then adds nothing. */
  takenAt: Instant.nullable(),
})
export type EventFileOutcome = z.infer<typeof EventFileOutcome>

/** What is later than this after now is no event that was. */
const AHEAD_MS = 15 * 60_000

/**
 * Why an event cannot have been at an instant; null where it can.
 * @param placedAt of the drain that it names, if it names one
 */
export function whyNotAt(
  atMs: number,
  { enrolledAt, placedAt, nowMs }: { enrolledAt: string; placedAt: string | null; nowMs: number },
): string | null {
  if (atMs > nowMs + AHEAD_MS) return 'is later than now; accepted: a time that has passed'
  if (atMs < Date.parse(enrolledAt)) return `is before enrolment; accepted: ${enrolledAt} or later`
  if (placedAt !== null && atMs < Date.parse(placedAt))
    return `is before this drain was placed; accepted: ${placedAt} or later`
  return null
}
