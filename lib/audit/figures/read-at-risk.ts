import { type DrainInPlace, deathsBy, type Span, staysIn, tubeSteps } from '../../store/audit-facts.ts'
import type { Tx } from '../../store/index.ts'
import { followTurns } from '../../store/review-items.ts'
import { type DrainAtRisk, drainsAtRisk } from './at-risk.ts'
import type { Week } from './weeks.ts'

/** When drains were at risk in some weeks, and when each patient had died, in ms; and how many rows could not be read. */
export async function readAtRisk(
  tx: Tx,
  span: Span,
  places: readonly DrainInPlace[],
  weeks: readonly Week[],
  now: Date,
): Promise<{ drains: DrainAtRisk[]; deaths: Map<string, number>; unreadable: number }> {
  const steps = await tubeSteps(tx, span)
  const stays = await staysIn(tx, span)
  const turns = await followTurns(tx, span.clinicId, span.until)
  const died = await deathsBy(tx, span)
  const deaths = new Map(died.rows.map(({ patientId, at }) => [patientId, Date.parse(at)]))
  const absences = { stays: stays.rows, turns: turns.rows, deaths }
  return {
    drains: drainsAtRisk(places, steps.rows, absences, weeks, now.getTime()),
    deaths,
    unreadable: [steps, stays, turns, died].reduce((sum, { unreadable }) => sum + unreadable.length, 0),
  }
}
