import { eventLabels, thresholdLabels } from '@/lib/domain/labels.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Happening, Mark } from './happenings.ts'

/** What staff did: what befell the tubes, other orders, and a drain's own thresholds. */
export function careEvents(page: PatientPage, mark: Mark, whose: (drain: string) => string): Happening[] {
  const { drains, staffEvents } = page.record
  const done = (at: string, drain: string | null | undefined, label: string, why = '') =>
    mark(at, `${drain ? whose(drain) : ''}${label}${why ? `: ${why}` : ''}`, { tone: 'staff', label })
  const isTold = (drain: string, type: string, at: string) =>
    staffEvents.some(
      (event) => event.drain === drain && event.type === type && Date.parse(event.at) === Date.parse(at),
    )
  const facts = drains.flatMap(({ id, placedAt, removedAt, cappedAt }) =>
    (
      [
        ['placed', placedAt],
        ['removed', removedAt],
        ['capped', cappedAt],
      ] as const
    ).flatMap(([type, at]) =>
      at && !isTold(id, type, at) ? [done(at, id, eventLabels[type].toLowerCase())] : [],
    ),
  )
  return [
    ...facts,
    ...staffEvents
      .filter(({ type }) => type !== 'flag-closed')
      .map(({ at, drain, type }) => done(at, drain, eventLabels[type].toLowerCase())),
    ...Object.entries(page.orders).flatMap(([drain, versions]) => [
      ...versions
        .filter(({ version }) => version > 1)
        .map(({ validFrom, by, changes, why }) =>
          done(
            validFrom,
            drain,
            'orders changed',
            `${changes.join(', ')} (${by}${why ? `: ${why}` : ''})`.trimStart(),
          ),
        ),
      ...thresholdSteps(versions).map(({ name, value, at, by, why }) =>
        done(
          at,
          drain,
          'threshold changed',
          `${thresholdLabels[name].toLowerCase()} ${value} (${by}: ${why})`,
        ),
      ),
    ]),
  ]
}

/** Each setting of a drain's own threshold once: later versions carry it on. */
function thresholdSteps(versions: PatientPage['orders'][string]) {
  const set = new Map(
    versions.flatMap(({ overrides }) =>
      overrides.map((one) => [`${one.name} ${one.at} ${one.value}`, one] as const),
    ),
  )
  return [...set.values()]
}
