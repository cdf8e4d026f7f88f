import { now as clock } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import { type DraftState, DraftStep } from '../../domain/rule-draft.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { answerOnce } from '../../store/answered.ts'
import { write } from '../../store/index.ts'
import { stored } from '../../store/rows.ts'
import { saveDraft } from '../../store/rule-drafts.ts'
import { parse } from '../week/parse.ts'
import { approve, lookAgain, propose } from './agree.ts'
import { draftOf, keepStep, refuseIfStale, type StepCall } from './draft-of.ts'
import { putInForce } from './put-in-force.ts'
import { nameOf } from './sets.ts'
import { valuesBeyond, withValues } from './values.ts'

/**
 * Takes one step of a draft's life: a change, the proposal, the second person's approval or the second look, its coming
 * into force, its end. What was changed since the caller read it is refused: nobody answers for values that they did not see.
 * @throws Refusal invalid-input, not-found, conflict (with who and what stands against it), key-reused
 */
export function stepDraft(
  staff: StaffMember,
  id: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ state: DraftState }> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { ruleDraft: id, step: body } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const step = parse('step', DraftStep, body)
      const call: StepCall = { ...(await draftOf(tx, clinicId, id)), tx, staff, now }
      refuseIfOver(call)
      if (step.seen !== nameOf(call.draft.body).hash)
        throw new Refusal('conflict', 'The draft has been changed since you read it: read it again first.')
      await take(call, step)
      return { state: (await draftOf(tx, clinicId, id)).life.state }
    }),
  )
}

function refuseIfOver({ draft, life }: StepCall): void {
  if (life.state === 'in-force')
    throw new Refusal('conflict', `${draft.version} has been put in force already.`)
  if (life.state === 'withdrawn') throw new Refusal('conflict', `${draft.version} was withdrawn.`)
}

async function take(call: StepCall, step: DraftStep): Promise<void> {
  switch (step.step) {
    case 'change':
      return change(call, step)
    case 'rebase':
      return rebase(call)
    case 'propose':
      return propose(call, step.withoutReplay ?? null)
    case 'approve':
      return approve(call)
    case 'look-again':
      return lookAgain(call)
    case 'put-in-force':
      return putInForce(call, step.from ?? null)
    case 'withdraw':
      return keepStep(call, 'withdrawn', { why: step.why })
  }
}

/** Other values or another reason, against the set that the draft was written on. */
async function change(
  call: StepCall,
  { values, reason }: Extract<DraftStep, { step: 'change' }>,
): Promise<void> {
  const { draft, last } = call
  refuseIfStale(call)
  const body = withValues(last.set, values, draft.version, reason)
  if (nameOf(body).hash === nameOf(draft.body).hash && reason === draft.reason)
    throw new Refusal('invalid-input', 'This changes nothing of the draft.', [
      { field: 'values', message: 'accepted: at least one value or a reason that differs' },
    ])
  await saveDraft(call.tx, draft.id, { body, baseVersion: draft.baseVersion, reason })
  await keepStep(call, 'changed', { why: reason }, body)
}

/** The draft's own values, put on the set that came into force meanwhile. */
async function rebase(call: StepCall): Promise<void> {
  const { tx, draft, last, placed } = call
  if (!call.isStale) throw new Refusal('conflict', `${draft.baseVersion} stands: nothing came between.`)
  const written = placed.find(({ set }) => set.version === draft.baseVersion)
  if (!written)
    throw new Refusal('conflict', `${draft.baseVersion} cannot be read any more: write a new draft.`)
  const values = valuesBeyond(written.set, draft.body)
  const body = withValues(last.set, values, draft.version, draft.reason)
  await saveDraft(tx, draft.id, { body, baseVersion: last.set.version, reason: draft.reason })
  const why = `Written on ${draft.baseVersion}; put on ${last.set.version}.`
  await keepStep(call, 'changed', { why }, body)
}
