import type { StaffEventType } from '../domain/words.ts'

type Event = { at: string; type: StaffEventType }

const NEW_TUBE = new Set<StaffEventType>(['placed', 'exchanged', 'replaced'])

export const isNewTube = (type: StaffEventType): boolean => NEW_TUBE.has(type)

const latestOf = <T extends Event>(events: readonly T[], is: (event: T) => boolean): T | undefined =>
  events
    .filter(is)
    .reduce<T | undefined>(
      (latest, event) => (latest && Date.parse(latest.at) > Date.parse(event.at) ? latest : event),
      undefined,
    )

/** When the newest tube of a drain was placed, by its staff events; undefined where it is still the first. */
export const newestTubeAt = (events: readonly Event[]): string | undefined =>
  latestOf(events, ({ type }) => NEW_TUBE.has(type))?.at

/** Taken out, and no tube placed since. */
export const isRemoved = (events: readonly Event[]): boolean =>
  latestOf(events, ({ type }) => type === 'removed' || NEW_TUBE.has(type))?.type === 'removed'

/** Capped by order or by a later event, and not uncapped since: a new tube does not end a capping trial by itself. */
export function isCapped(
  events: readonly Event[],
  cappedAt: string | null | undefined,
  atMs: number,
): boolean {
  const last = latestOf(events, ({ type }) => type === 'capped' || type === 'uncapped')
  if (last) return last.type === 'capped'
  return cappedAt != null && Date.parse(cappedAt) <= atMs
}
