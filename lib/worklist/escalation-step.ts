import { recordAccess } from '../access/record.ts'
import { cellOf } from '../domain/after-hours.ts'
import { onCallAt, type Shift } from '../domain/rota.ts'
import { nextTurn, turnOf } from '../domain/turn.ts'
import { isOpenNow } from '../notify/open-escalation.ts'
import { settleEscalation } from '../notify/settle-escalation.ts'
import { type AfterHoursClinic, afterHoursClinic } from '../store/after-hours.ts'
import {
  addEscalationStep,
  escalationById,
  type KeptEscalation,
  type KeptStep,
  saveEscalation,
  stepsOf,
} from '../store/escalations.ts'
import type { Tx } from '../store/index.ts'
import { pressingFlagsFor } from '../store/pressing.ts'
import { stored } from '../store/rows.ts'
import { shiftById, shiftsFrom } from '../store/shifts.ts'
import { addOnCallLetters, LAST_RESORT, type Told, waysTo } from './on-call-letters.ts'

const MINUTE_MS = 60_000

/**
 * Takes the next step of an escalation that is due: ends it, or tells whoever's turn it is and sets the time of the
 * step after. All in the caller's transaction, on what is true under its lock. Says whether a step was taken.
 * @param lastResort the address that is told where nobody on call can be, or all were asked in vain; null: none
 */
export async function stepEscalation(
  tx: Tx,
  id: string,
  now: Date,
  lastResort: string | null,
): Promise<boolean> {
  const standing = await escalationById(tx, id)
  if (!standing || standing.endedAt !== null) return false
  if (standing.nextAt === null || standing.nextAt > stored(now)) return false
  if (await settleEscalation(tx, standing, now)) return true
  const clinic = await afterHoursClinic(tx, standing.clinicId)
  if (!clinic) throw new Error(`escalation ${id}: its clinic is not there`)
  const { rows: steps } = await stepsOf(tx, id)
  const step: Stepping = { tx, standing, clinic, steps, now, lastResort, actBy: await actByOf(tx, standing) }
  if (standing.haveItAt !== null) await tellHolder(step)
  else await tellNext(step)
  return true
}

type Stepping = {
  tx: Tx
  standing: KeptEscalation
  clinic: AfterHoursClinic
  steps: readonly KeptStep[]
  now: Date
  lastResort: string | null
  actBy: string | null
}

/** The cell that an escalation goes by. What was opened goes on by the closed hours' where the open ones tell nobody. */
function cellFor({ clinic, standing, now }: Stepping) {
  const cell = cellOf(clinic.table, standing.urgency, isOpenNow(clinic, now))
  return cell.tell === 'on-call' ? cell : cellOf(clinic.table, standing.urgency, false)
}

/** Something further came: whoever has it is told once, and goes on having it. */
async function tellHolder(step: Stepping): Promise<void> {
  const { tx, standing, steps } = step
  const turn = turnOf(steps)
  const shift = turn?.shiftId ? await shiftById(tx, standing.clinicId, turn.shiftId) : null
  const told: Told = { shift, thenAsked: null, passedOnAt: null, isNews: true }
  await send(step, told)
  await saveEscalation(tx, standing.id, { nextAt: null })
  await note(step, `told ${shift?.name ?? LAST_RESORT} that something further has come`)
}

async function tellNext(step: Stepping): Promise<void> {
  const { tx, standing, clinic, steps, now } = step
  const { repeatMinutes, passOnMinutes } = cellFor(step)
  const { rows: shifts } = await shiftsFrom(tx, clinic.id, stored(now))
  const onCall = onCallAt(shifts, now.getTime())
  const turn = nextTurn(steps, onCall, passOnMinutes, now.getTime())
  const repeatMs = now.getTime() + repeatMinutes * MINUTE_MS
  if (!turn) {
    await tellNobody(step, 'nobody', null, 'Nobody is on call.')
    return saveEscalation(tx, standing.id, { nextAt: stored(new Date(repeatMs)) })
  }
  const { shift, why, sinceMs, begunAgain } = turn
  if (why !== null)
    await addEscalationStep(
      tx,
      standing,
      { kind: 'passed-on', by: shift.name, shiftId: shift.id, why: `${why}.` },
      now,
    )
  const passedOnMs = sinceMs + passOnMinutes * MINUTE_MS
  const next = onCall[(onCall.indexOf(shift) + 1) % onCall.length]
  const told: Told = {
    shift,
    thenAsked: next && next !== shift ? next.name : null,
    passedOnAt: stored(new Date(passedOnMs)),
    isNews: false,
  }
  if (await send(step, told)) {
    await note(step, `told ${shift.name}, who is on call${why ? `: ${why}` : ''}`)
    if (begunAgain) await tellLastResort(step)
  } else await tellNobody(step, 'no-way', shift, noWay(shift))
  await saveEscalation(tx, standing.id, { nextAt: stored(new Date(Math.min(repeatMs, passedOnMs))) })
}

/** Writes the messages to somebody; false where there is no way to them. */
async function send(step: Stepping, told: Told): Promise<boolean> {
  const { tx, standing, clinic, now, lastResort, actBy } = step
  const ways = waysTo(told.shift, cellFor(step).channel, lastResort)
  if (ways.length === 0) return false
  await addOnCallLetters(tx, { standing, clinic, actBy, told, ways }, now)
  return true
}

/** Nobody can be told: it says so once and stands, and the address of last resort is told each time. */
async function tellNobody(
  step: Stepping,
  kind: 'nobody' | 'no-way',
  shift: Shift | null,
  why: string,
): Promise<void> {
  const { tx, standing, steps, now } = step
  const last = steps.findLast(
    (one) => ['nobody', 'no-way', 'told', 'raised'].includes(one.kind) && one.by !== LAST_RESORT,
  )
  if (last?.kind !== kind || last.shiftId !== (shift?.id ?? null)) {
    await addEscalationStep(
      tx,
      standing,
      { kind, shiftId: shift?.id ?? null, by: shift?.name ?? null, why },
      now,
    )
    await note(step, why)
  }
  await tellLastResort(step)
}

async function tellLastResort(step: Stepping): Promise<void> {
  const told: Told = { shift: null, thenAsked: null, passedOnAt: null, isNews: false }
  if (await send(step, told)) await note(step, `told ${LAST_RESORT}`)
}

const noWay = ({ name, email }: Shift) =>
  `There is no way to tell ${name}: ${email === null ? 'no gateway is set up for their number' : 'no transport is set up'}.`

async function actByOf(tx: Tx, { id }: KeptEscalation): Promise<string | null> {
  const { rows } = await pressingFlagsFor(tx, id)
  return rows.find(({ spokenAt }) => spokenAt === null)?.actBy ?? null
}

async function note({ tx, standing, now }: Stepping, what: string): Promise<void> {
  const { clinicId, patientId } = standing
  const entry = {
    clinicId,
    at: stored(now),
    staffId: null,
    actor: 'after hours',
    action: 'tell-on-call',
    patientId,
  }
  await recordAccess(tx, { ...entry, what: `${what} (${standing.about})`.slice(0, 500) })
}
