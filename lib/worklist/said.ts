import type { CallCorrection, NewCallback } from '../domain/callback.ts'
import { Refusal } from '../domain/problem.ts'

/** Farthest time to look again that is taken for meant, in days. */
const LOOK_AGAIN_MAX_DAYS = 31

/** What was said, as it is kept. */
export const saidOf = (said: NewCallback | CallCorrection, lookAgainAt: string | null) => ({
  direction: ('direction' in said ? said.direction : undefined) ?? ('we-called' as const),
  outcome: said.outcome,
  spokenTo: (said.outcome === 'reached' ? said.spokenTo : null) ?? null,
  interpreter: said.outcome === 'reached' && said.interpreter === true,
  agreed: said.outcome === 'reached' ? (said.agreed ?? []) : [],
  teachBack: (said.outcome === 'reached' ? said.teachBack : null) ?? null,
  lookAgainAt,
  note: said.note ?? '',
  asked: ('asked' in said ? said.asked : undefined) ?? [],
  corrects: null as string | null,
  why: null as string | null,
})

/** @throws Refusal invalid-input (a time to look again that has passed, or is too far) */
export function refuseFarOrPast(lookAgainAt: string | null, now: Date): void {
  if (lookAgainAt === null) return
  const ahead = Date.parse(lookAgainAt) - now.getTime()
  if (ahead > 0 && ahead <= LOOK_AGAIN_MAX_DAYS * 86_400_000) return
  throw new Refusal('invalid-input', 'The callback is not as it is accepted.', [
    {
      field: 'lookAgainAt',
      value: lookAgainAt,
      message: `accepted: a time ahead, within ${LOOK_AGAIN_MAX_DAYS} days`,
    },
  ])
}
