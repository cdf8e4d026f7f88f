import { Refusal } from '../../domain/problem.ts'
import { stored } from '../../store/rows.ts'
import { keepStep, refuseIfStale, type StepCall } from './draft-of.ts'
import { stand } from './stand.ts'

/** The furthest moment ahead for which a set can be put in force, in days: what is decided today should not surprise next year. */
const FURTHEST_DAYS = 90
const DAY_MS = 86_400_000

/**
 * Puts an approved draft in force, now or from a later moment, and makes every patient due for a new assessment then.
 * @throws Refusal conflict (not approved, another set came between), invalid-input (in the past, too far ahead)
 */
export async function putInForce(call: StepCall, wanted: string | null): Promise<void> {
  const { tx, staff, draft, life, last, moments, now } = call
  refuseIfStale(call)
  if (!life.approved) throw new Refusal('conflict', 'It has not been approved yet.')
  const at = stored(now)
  const from = wanted === null ? at : stored(wanted)
  refuseMoment(from, wanted, now)
  if (last.from !== null && from <= last.from)
    throw new Refusal(
      'conflict',
      `${last.set.version} comes into force then or later: choose a moment after it, or take it back first.`,
    )
  // Where one that waited was taken back, its moment is still in the store: this set stands on at it.
  const later = moments.filter((moment) => moment > from)
  await stand(tx, staff, { set: draft.body, at, why: draft.reason, draft: draft.id }, [from, ...later])
  await keepStep(call, 'in-force', { why: `In force from ${from}.` })
}

function refuseMoment(from: string, wanted: string | null, now: Date): void {
  const fault = (message: string) =>
    new Refusal('invalid-input', 'The moment is not as it is accepted.', [
      { field: 'from', value: wanted, message },
    ])
  if (from < stored(now)) throw fault('lies in the past; accepted: now or later')
  if (Date.parse(from) > now.getTime() + FURTHEST_DAYS * DAY_MS)
    throw fault(`accepted: at most ${FURTHEST_DAYS} days ahead`)
}
