import { capital } from './capital.ts'
import type { PatientPage } from './patient-page.ts'
import type { Drain } from './record.ts'

/** Drains that have not been taken out. */
export function inPlace({ record }: Pick<PatientPage, 'record'>): Drain[] {
  return record.drains.filter(({ id, removedAt }) => {
    const last = record.staffEvents
      .filter(
        ({ drain, type }) => drain === id && ['removed', 'placed', 'replaced', 'exchanged'].includes(type),
      )
      .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
      .at(-1)
    return !removedAt && last?.type !== 'removed'
  })
}

/** A drain as patient and team call it. */
export const nameOf = ({ labels }: Pick<PatientPage, 'labels'>, drain: string): string =>
  capital(labels[drain]?.label ?? drain)

/** Since when a drain is capped, by order or by a later event; null where it is not. A new tube does not end a capping trial. */
export function cappedSince(
  { record, asOf }: Pick<PatientPage, 'record' | 'asOf'>,
  { id, cappedAt }: Drain,
): string | null {
  const last = record.staffEvents
    .filter(({ drain, type }) => drain === id && (type === 'capped' || type === 'uncapped'))
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .at(-1)
  if (last) return last.type === 'capped' ? last.at : null
  return cappedAt && Date.parse(cappedAt) <= Date.parse(asOf) ? cappedAt : null
}

/** The newest tube of a drain: when it came in, and how. */
export function newestTube({ record }: Pick<PatientPage, 'record'>, drain: Drain) {
  const tubes = record.staffEvents
    .filter((event) => event.drain === drain.id && ['placed', 'exchanged', 'replaced'].includes(event.type))
    .map(({ at, type }) => ({ at, type }))
  const all = [{ at: drain.placedAt, type: 'placed' as const }, ...tubes]
  return all.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1) ?? all[0]
}

/** When the tube that lies now came in. */
export const tubeSince = (page: Pick<PatientPage, 'record'>, drain: Drain): string =>
  newestTube(page, drain)?.at ?? drain.placedAt
