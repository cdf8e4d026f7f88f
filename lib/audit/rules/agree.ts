import { dayAndTime } from '../../domain/local-time.ts'
import { Refusal } from '../../domain/problem.ts'
import { clinicById } from '../../store/clinics.ts'
import { stored } from '../../store/rows.ts'
import { physiciansOf, type StoredDraftStep } from '../../store/rule-drafts.ts'
import { staffNamesOf } from '../../store/staff-names.ts'
import { keepStep, refuseIfStale, replaysOf, type StepCall } from './draft-of.ts'
import { secondLookFrom, WAIT_HOURS } from './life.ts'

/**
 * Puts one's name to a draft: the first of two. A finished replay of just these values goes with it, or the reason why there is none.
 * @throws Refusal conflict, invalid-input
 */
export async function propose(call: StepCall, withoutReplay: string | null): Promise<void> {
  const { tx, staff, draft, life } = call
  refuseIfStale(call)
  if (life.proposed)
    throw new Refusal('conflict', `${await whoWhen(call, life.proposed)} proposed it already.`)
  const done = (await replaysOf(tx, staff.clinicId, draft)).find(
    ({ state, isOfThis }) => state === 'done' && isOfThis,
  )
  if (!done && withoutReplay === null)
    throw new Refusal(
      'invalid-input',
      'No replay of these values has ended: run one, or say why it is proposed without.',
      [{ field: 'withoutReplay', message: 'is missing; accepted: why there is no replay' }],
    )
  await keepStep(call, 'proposed', { replayId: done?.id ?? null, why: done ? null : withoutReplay })
}

/**
 * The second person's approval.
 * @throws Refusal conflict: not proposed, approved already, or by whoever proposed it
 */
export async function approve(call: StepCall): Promise<void> {
  const proposed = await proposedStep(call)
  if (proposed.recordedBy === call.staff.id) {
    const others = await othersThan(call, proposed)
    const instead =
      others.length > 0
        ? `Another physician must approve it: ${others.join(', ')}.`
        : `Alone in the clinic you look at it again, from ${await local(call, secondLookFrom(proposed))} on.`
    throw new Refusal(
      'conflict',
      `${await whoWhen(call, proposed)} proposed it: two approvals by one person do not count as two. ${instead}`,
    )
  }
  await keepStep(call, 'approved')
}

/**
 * Alone in a clinic: a day's wait and a second look take the second person's place.
 * @throws Refusal conflict: somebody else could approve, or the day is not over
 */
export async function lookAgain(call: StepCall): Promise<void> {
  const proposed = await proposedStep(call)
  const others = await othersThan(call, proposed)
  if (others.length > 0)
    throw new Refusal(
      'conflict',
      `A second look is for whoever is alone in a clinic. ${others.join(', ')} can approve it.`,
    )
  const from = secondLookFrom(proposed)
  if (stored(call.now) < from)
    throw new Refusal(
      'conflict',
      `The second look comes ${WAIT_HOURS} h after the proposal: from ${await local(call, from)} on.`,
    )
  await keepStep(call, 'looked-again')
}

async function proposedStep(call: StepCall): Promise<StoredDraftStep> {
  const { life } = call
  refuseIfStale(call)
  if (!life.proposed) throw new Refusal('conflict', 'It has not been proposed yet.')
  if (life.approved)
    throw new Refusal('conflict', `${await whoWhen(call, life.approved)} approved it already.`)
  return life.proposed
}

/** The other physicians of the clinic who can sign in, by name. */
async function othersThan({ tx, staff }: StepCall, proposed: StoredDraftStep): Promise<string[]> {
  const all = await physiciansOf(tx, staff.clinicId)
  return all.filter(({ id }) => id !== proposed.recordedBy).map(({ name }) => name)
}

async function whoWhen(call: StepCall, step: StoredDraftStep): Promise<string> {
  const names = await staffNamesOf(call.tx, call.staff.clinicId)
  return `${names.get(step.recordedBy) ?? step.recordedBy} (${await local(call, step.recordedAt)})`
}

async function local({ tx, staff }: StepCall, at: string): Promise<string> {
  const clinic = await clinicById(tx, staff.clinicId)
  return dayAndTime(at, clinic?.timeZone ?? 'UTC')
}
