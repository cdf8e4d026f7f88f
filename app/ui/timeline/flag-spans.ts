import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { dayAndTime, localDate, localParts } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Urgency } from '@/lib/domain/words.ts'

/** A flag from its opening to its end, in the patient's own days; `until` null while it stands. */
export type FlagSpan = {
  from: { date: string; part: number }
  until: { date: string; part: number }
  stands: boolean
  urgency: Urgency
  lane: number
  name: string
  says: string
}

/** Clinical flags from their opening to their end, in as many lanes as overlap. */
export function flagSpans({
  asOf,
  flags,
  steps,
  record: { timeZone: zone },
}: Pick<PatientPage, 'asOf' | 'flags' | 'steps' | 'record'>): FlagSpan[] {
  const ended = new Map(steps.filter(({ kind }) => kind === 'ended').map(({ flagId, at }) => [flagId, at]))
  const place = (at: string) => {
    const { hour, minute } = localParts(at, zone)
    return { date: localDate(at, zone), part: (hour * 60 + minute) / 1440 }
  }
  const ends: number[] = []
  return flags
    .filter(({ nature }) => nature === 'clinical')
    .map((flag) => {
      const stands = flag.state === 'open' || flag.state === 'owed'
      const until = stands ? null : (flag.closedAt ?? ended.get(flag.id) ?? null)
      return { flag, stands, until, end: until ?? asOf }
    })
    .toSorted(
      (a, b) =>
        Date.parse(a.flag.openedAt) - Date.parse(b.flag.openedAt) || Date.parse(b.end) - Date.parse(a.end),
    )
    .map(({ flag, stands, until, end }) => {
      const free = ends.findIndex((before) => before < Date.parse(flag.openedAt))
      const lane = free < 0 ? ends.length : free
      ends[lane] = Date.parse(end)
      const name = `${findingLabels[flag.code]}, ${urgencyLabels[flag.urgency].toLowerCase()}`
      return {
        from: place(flag.openedAt),
        until: place(end),
        stands,
        urgency: flag.urgency,
        lane,
        name,
        says: `${name}: ${dayAndTime(flag.openedAt, zone)} to ${until ? dayAndTime(until, zone) : stands ? 'now' : 'an end that was not recorded'}`,
      }
    })
}
