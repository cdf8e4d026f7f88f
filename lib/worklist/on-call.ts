import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { OnCallCall, type OnCallView } from '../domain/escalation.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import { turnOf } from '../domain/turn.ts'
import { tell } from '../notify/bus.ts'
import { addEscalationStep, saveEscalation } from '../store/escalations.ts'
import { type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { hasIt, linkOf, type OnCallLink } from './on-call-link.ts'
import { composeOnCallView } from './on-call-view.ts'

/**
 * What the link of a message is for: to look, to say 'I have it', or to pass it on. The secret of the link is the whole
 * right to do it; whatever is done stands in the steps and in the access record. Asked twice, the outcome is the same.
 * @throws Refusal link-not-valid, taken (somebody else has it), conflict (it is over), invalid-input
 */
export async function onCall(id: string, body: unknown, now: Date = clock()): Promise<OnCallView> {
  const call = OnCallCall.safeParse(body)
  if (!call.success)
    throw new Refusal('invalid-input', 'The call is not as it is accepted.', faultsOf(call.error, body))
  const { token, wish } = call.data
  const { view, told } = await write(async (tx) => {
    const link = await linkOf(tx, id, token, now)
    const changed = await wishes[wish](tx, link, now)
    const view = await composeOnCallView(tx, await linkOf(tx, id, token, now), now)
    await noteSeen(tx, link, view, now)
    return { view, told: changed ? link.standing : null }
  })
  if (told) tell(told.clinicId, { patientId: told.patientId ?? '', kind: 'escalation' })
  return view
}

/** Does what is wished; says whether anything has changed for others. */
type Wish = (tx: Tx, link: OnCallLink, now: Date) => Promise<boolean>

const look: Wish = async (tx, { step, standing, steps }, now) => {
  const seen = steps.some(
    ({ kind, shiftId, by }) => kind === 'looked' && shiftId === step.shiftId && by === step.by,
  )
  if (seen || standing.endedAt !== null) return false
  await addEscalationStep(tx, standing, { kind: 'looked', shiftId: step.shiftId, by: step.by }, now)
  return true
}

const haveIt: Wish = async (tx, link, now) => {
  const { step, standing } = link
  if (standing.endedAt !== null) throw isOver()
  if (hasIt(link)) return false
  if (standing.haveItAt !== null) throw new Refusal('taken', `${standing.haveItBy} has it already.`)
  const at = stored(now)
  await saveEscalation(tx, standing.id, { haveItAt: at, haveItBy: step.by, nextAt: null })
  await addEscalationStep(tx, standing, { kind: 'have-it', shiftId: step.shiftId, by: step.by }, now)
  await note(tx, link, 'on-call-have-it', `said ‘I have it’ of: ${standing.about}`, now)
  return true
}

const passOn: Wish = async (tx, link, now) => {
  const { step, standing, steps } = link
  if (standing.endedAt !== null) throw isOver()
  const isOwn = hasIt(link)
  if (standing.haveItAt !== null && !isOwn) return false
  const turn = turnOf(steps)
  if (turn?.shiftId === step.shiftId && turn.declined) return false
  await addEscalationStep(tx, standing, { kind: 'declined', shiftId: step.shiftId, by: step.by }, now)
  // Only whose turn it is can pass it on; another who cannot is noted, and hears of it again in their turn.
  if (isOwn || turn?.shiftId === step.shiftId)
    await saveEscalation(tx, standing.id, { haveItAt: null, haveItBy: null, nextAt: stored(now) })
  await note(tx, link, 'on-call-pass-on', `cannot, and passed it on: ${standing.about}`, now)
  return true
}

const wishes: Readonly<Record<OnCallCall['wish'], Wish>> = { look, 'have-it': haveIt, 'pass-on': passOn }

const isOver = () => new Refusal('conflict', 'This is over: nothing is asked of you any more.')

/** Every view stands in the access record, and whether it showed who the patient is. */
async function noteSeen(tx: Tx, link: OnCallLink, { identity }: OnCallView, now: Date): Promise<void> {
  const what = identity
    ? 'saw the patient’s name, numbers and findings'
    : 'saw the findings, without the patient’s name'
  await note(tx, link, 'view-on-call', `opened the link of an on-call message: ${what}`, now)
}

async function note(
  tx: Tx,
  { step, standing }: OnCallLink,
  action: string,
  what: string,
  now: Date,
): Promise<void> {
  await recordAccess(tx, {
    clinicId: standing.clinicId,
    at: stored(now),
    staffId: null,
    actor: `${step.by ?? 'unknown'} (on call)`,
    action,
    patientId: standing.patientId,
    what: what.slice(0, 500),
  })
}
