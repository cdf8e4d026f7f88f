import type { EscalationStep } from './escalation.ts'
import type { OnCallState } from './on-call-state.ts'
import type { Shift } from './rota.ts'

type Step = Pick<EscalationStep, 'at' | 'kind' | 'shiftId' | 'by'>

/** Whose turn it is: since when they are asked, and whether they said that they cannot. */
export type Turn = { shiftId: string | null; name: string | null; sinceMs: number; declined: boolean }

/** Whose turn the steps say that it is; null before anybody was told. */
export function turnOf(steps: readonly Step[]): Turn | null {
  let turn = null as Turn | null
  let isOver = false
  for (const step of steps) {
    const isNew = isOver || turn?.shiftId !== step.shiftId
    turn = afterStep(turn, step, isNew)
    if (step.kind === 'passed-on') isOver = true
    else if (asks(step)) isOver = false
  }
  return turn
}

/** The address of last resort is told beside whoever's turn it is. */
const asks = ({ kind, shiftId }: Step) => (kind === 'told' || kind === 'no-way') && shiftId !== null

function afterStep(turn: Turn | null, step: Step, isNew: boolean): Turn | null {
  const begun = { shiftId: step.shiftId, name: step.by, sinceMs: Date.parse(step.at), declined: false }
  if (step.kind === 'have-it' || (asks(step) && isNew)) return begun
  if (step.kind === 'raised' && turn) return { ...turn, sinceMs: begun.sinceMs, declined: false }
  if (step.kind === 'declined' && turn?.shiftId === step.shiftId) return { ...turn, declined: true }
  return turn
}

/** Who is to be told now; why it was passed on to them; whether all have been told and it begins again. */
export type NextTurn = { shift: Shift; why: string | null; sinceMs: number; begunAgain: boolean }

/**
 * Who is to be told at an instant: the same person until the time to pass on has come, then the next by rank, and
 * after the last the first again. Null where nobody is on call.
 * @param onCall who is on call at that instant, in order
 */
export function nextTurn(
  steps: readonly Step[],
  onCall: readonly Shift[],
  passOnMinutes: number,
  nowMs: number,
): NextTurn | null {
  const [first] = onCall
  if (!first) return null
  const turn = turnOf(steps)
  if (!turn || turn.shiftId === null) return { shift: first, why: null, sinceMs: nowMs, begunAgain: false }
  const name = turn.name ?? 'the person told before'
  const index = onCall.findIndex(({ id }) => id === turn.shiftId)
  const own = onCall[index]
  if (!own) return { shift: first, why: `${name} is no longer on call`, sinceMs: nowMs, begunAgain: false }
  const next = onCall[index + 1]
  const to = { shift: next ?? first, sinceMs: nowMs, begunAgain: next === undefined }
  if (turn.declined) return { ...to, why: `${name} cannot` }
  if (nowMs - turn.sinceMs >= passOnMinutes * 60_000)
    return { ...to, why: `no answer from ${name} within ${passOnMinutes} min` }
  return { shift: own, why: null, sinceMs: turn.sinceMs, begunAgain: false }
}

/** How it stands, for a row of the worklist. */
export function onCallState(
  escalation: { recordedAt: string; haveItAt: string | null; haveItBy: string | null },
  steps: readonly Step[],
): OnCallState {
  const told = steps.filter(({ kind }) => kind === 'told')
  const tries = new Set(told.map(({ at }) => at)).size
  const { haveItAt, haveItBy, recordedAt } = escalation
  if (haveItAt !== null) return { state: 'has-it', name: haveItBy, at: haveItAt, tries }
  const last = steps.findLast(({ kind }) => kind === 'told' || kind === 'nobody' || kind === 'no-way')
  if (!last) return { state: 'waiting', name: null, at: recordedAt, tries }
  return last.kind === 'told'
    ? { state: 'told', name: last.by, at: last.at, tries }
    : { state: 'nobody', name: last.by, at: last.at, tries }
}

/** What the end of an escalation hangs on. */
export type EndFacts = {
  /** The clinic is open and its table tells nobody of this then. */
  isOnWorklist: boolean
  /** Standing flags of at-once and within-1h: about which nobody has spoken to the patient, and the others. */
  unspoken: number
  spoken: number
  /** The patient was admitted since it last grew. */
  isInHospital: boolean
}

/** Why an escalation of a patient is over; null while it is not. */
export function endOf({ isOnWorklist, unspoken, spoken, isInHospital }: EndFacts): string | null {
  if (unspoken === 0)
    return spoken > 0 ? 'Somebody has spoken to the patient.' : 'Nothing that cannot wait stands any more.'
  if (isInHospital) return 'The patient is in hospital.'
  return isOnWorklist ? 'The clinic is open: the row is on the worklist.' : null
}
