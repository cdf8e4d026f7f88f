import { now as clock } from '../../clock.ts'
import type { Figures, Period } from '../../domain/figures.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { snapshot, type Tx } from '../../store/index.ts'
import { type Facts, factsOf } from './facts.ts'
import { load } from './load.ts'
import type { Made } from './made.ts'
import { openingsOf } from './openings.ts'
import { outcome } from './outcome.ts'
import { trust } from './trust.ts'
import { waiting } from './waiting.ts'

/**
 * The figures of a period, over whole local days of the clinic, from the first up to, not with, the last; as the store knew them now.
 * They name patients by id only; nothing is written.
 *
 * @throws Refusal not-found, invalid-input (an empty period)
 */
export async function figuresWithin(tx: Tx, clinicId: string, period: Period, now: Date): Promise<Figures> {
  return makeAll(await factsOf(tx, clinicId, period, now)).map(({ figure }) => figure)
}

/** The same, for a member of staff. */
export async function auditFigures(
  { clinicId }: StaffMember,
  period: Period,
  now: Date = clock(),
): Promise<Figures> {
  const facts = await snapshot((tx) => factsOf(tx, clinicId, period, now))
  return makeAll(facts).map(({ figure }) => figure)
}

/** All figures, in the order in which they are read. */
export function makeAll(facts: Facts): Made[] {
  const openings = openingsOf(facts)
  return [...trust(facts), ...waiting(facts, openings), ...load(facts, openings), ...outcome(facts)]
}
