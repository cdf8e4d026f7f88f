import { authSecret } from '../access/secret.ts'
import type { AfterHoursCell } from '../domain/after-hours.ts'
import type { Shift } from '../domain/rota.ts'
import type { OnCallBody } from '../notify/on-call-letter.ts'
import { onCallToken } from '../notify/on-call-token.ts'
import { transportsSetUp } from '../notify/set-up.ts'
import type { AfterHoursClinic } from '../store/after-hours.ts'
import { addEscalationStep, type KeptEscalation, nextStepId } from '../store/escalations.ts'
import { sha256 } from '../store/hashes.ts'
import type { Tx } from '../store/index.ts'
import { addLetter } from '../store/outbox.ts'

/** How the address of last resort is named in the steps. */
export const LAST_RESORT = 'the address of last resort'

/** One way to a person. */
export type Way = { channel: 'email' | 'gateway'; to: string }

/** Who is told, and what they are told of what comes after. `shift` null: the address of last resort. */
export type Told = {
  shift: Shift | null
  thenAsked: string | null
  passedOnAt: string | null
  isNews: boolean
}

/**
 * The ways to a person that can be taken: those that the table names, and where none of these can, any that can. Mail
 * counts as a way even where it lands in a folder: the worklist says that nobody gets it.
 */
export function waysTo(
  shift: Pick<Shift, 'email' | 'phone'> | null,
  wanted: AfterHoursCell['channel'],
  lastResort: string | null,
): Way[] {
  if (shift === null) return lastResort ? [{ channel: 'email', to: lastResort }] : []
  const ways: Way[] = [
    ...(shift.email ? [{ channel: 'email' as const, to: shift.email }] : []),
    ...(shift.phone && transportsSetUp().gateway === 'webhook'
      ? [{ channel: 'gateway' as const, to: shift.phone }]
      : []),
  ]
  const named = ways.filter(({ channel }) => wanted === 'both' || wanted === channel)
  return named.length > 0 ? named : ways
}

type Message = {
  standing: KeptEscalation
  clinic: AfterHoursClinic
  actBy: string | null
  told: Told
  ways: readonly Way[]
}

const kinds = { email: 'on-call', gateway: 'on-call-text' } as const

/** Writes one letter a way, each with a step of its own that keeps the hash of the secret in its link. */
export async function addOnCallLetters(
  tx: Tx,
  { standing, clinic, actBy, told, ways }: Message,
  now: Date,
): Promise<void> {
  const { shift, ...after } = told
  for (const { channel, to } of ways) {
    const step = await nextStepId(tx, standing.id)
    const body: OnCallBody = {
      to,
      escalation: standing.id,
      step,
      clinic: clinic.name,
      timeZone: clinic.timeZone,
      urgency: standing.urgency,
      about: standing.about,
      actBy,
      isOfSystem: standing.patientId === null,
      ...after,
    }
    const { clinicId, patientId } = standing
    const letterId = await addLetter(tx, { clinicId, patientId, kind: kinds[channel], body }, now)
    const tokenHash = sha256(onCallToken(authSecret(), step))
    const by = shift?.name ?? LAST_RESORT
    const kept = { kind: 'told' as const, shiftId: shift?.id ?? null, channel, by, letterId, tokenHash }
    await addEscalationStep(tx, standing, { id: step, ...kept }, now)
  }
}
