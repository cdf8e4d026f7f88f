import { WITHHELD } from '../../domain/registry.ts'
import type { RegistryDrain } from '../../store/registry-rows.ts'
import { nameable, tallyBy } from './mask.ts'
import { named } from './naming.ts'

const FOLLOWED = 'followed'

/** Until when a drain was followed, as of an instant, and why no longer. */
export function endOf(
  { removedAt, tubeAt, followUpEndedAt, followUpEnd }: RegistryDrain,
  at: string,
): { until: string; ended: string } {
  const isOut = removedAt !== null && (tubeAt === null || removedAt > tubeAt)
  return {
    until: [isOut ? removedAt : at, followUpEndedAt ?? at, at].sort()[0] ?? at,
    ended: isOut ? 'drain-removed' : followUpEndedAt === null ? FOLLOWED : (followUpEnd ?? WITHHELD),
  }
}

/**
 * How an end may be told, of all that there are: its name, or withheld where few patients share it; and whether how long the drain was
 * followed is told with it. Of those that are followed still it would be the days up to the export, and whoever knows that day
 * would know when the drain was placed.
 */
export function tellingEnds(
  all: readonly { patient: string; ended: string }[],
): (ended: string) => { ended: string; isTold: boolean } {
  const first = [...new Map(all.map((one) => [`${one.patient} ${one.ended}`, one])).values()]
  const names = nameable(tallyBy(first, ({ ended }) => ended))
  return (ended) => {
    const shown = named(names, ended)
    return { ended: shown, isTold: shown !== FOLLOWED && shown !== WITHHELD }
  }
}
