import { type Urgency, urgencyRank } from '../../domain/words.ts'
import type { OpenedFlag } from '../../store/audit-facts.ts'
import type { CallAt, Facts } from './facts.ts'
import { weekAt } from './weeks.ts'

/** What opened of one patient at one moment: one row of the worklist, by its most urgent flag. */
export type Opening = {
  patient: string
  at: number
  week: number
  urgency: Exclude<Urgency, 'none'>
  flags: OpenedFlag[]
}

/** The openings of the period, the earliest first. */
export function openingsOf({ flags, weeks }: Facts): Opening[] {
  const openings = new Map<string, Opening>()
  for (const flag of flags) {
    const key = `${flag.patientId} ${flag.openedAt}`
    const opening = openings.get(key)
    if (opening) {
      opening.flags.push(flag)
      if (urgencyRank[flag.urgency] > urgencyRank[opening.urgency]) opening.urgency = flag.urgency
    } else {
      const at = Date.parse(flag.openedAt)
      const { patientId: patient, urgency } = flag
      openings.set(key, { patient, at, week: weekAt(weeks, at), urgency, flags: [flag] })
    }
  }
  return [...openings.values()]
}

/** When a patient was first called since an instant, or first reached; null where not yet. */
export function firstCall(
  calls: readonly CallAt[] | undefined,
  since: number,
  isReached: boolean,
): number | null {
  const call = calls?.find(({ ms, outcome }) => ms >= since && (!isReached || outcome === 'reached'))
  return call ? call.ms : null
}
