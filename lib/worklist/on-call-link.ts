import { Refusal } from '../domain/problem.ts'
import {
  escalationById,
  type KeptEscalation,
  type KeptStep,
  stepByToken,
  stepsOf,
} from '../store/escalations.ts'
import { sha256 } from '../store/hashes.ts'
import type { Tx } from '../store/index.ts'

/** How long after the end of an escalation its links still say that it is over. */
const KNOWN_MS = 24 * 3_600_000

const notValid = () =>
  new Refusal(
    'link-not-valid',
    'This link is not valid. Sign in, or call the clinic’s number for the person on call.',
  )

/** A link that is ours: whose it is, and how its escalation stands. */
export type OnCallLink = { step: KeptStep; standing: KeptEscalation; steps: readonly KeptStep[] }

/**
 * The link that a secret makes.
 * @throws Refusal link-not-valid, for whatever is not ours and for what has long been over alike
 */
export async function linkOf(tx: Tx, id: string, token: string, now: Date): Promise<OnCallLink> {
  const step = await stepByToken(tx, sha256(token))
  if (step?.escalationId !== id) throw notValid()
  const standing = await escalationById(tx, id)
  if (!standing || (standing.endedAt !== null && now.getTime() - Date.parse(standing.endedAt) > KNOWN_MS))
    throw notValid()
  return { step, standing, steps: (await stepsOf(tx, id)).rows }
}

/** Whether it is the person of this link who has it. */
export function hasIt({ step, standing, steps }: OnCallLink): boolean {
  if (standing.haveItAt === null || standing.endedAt !== null) return false
  const last = steps.findLast(({ kind }) => kind === 'have-it')
  return last !== undefined && last.shiftId === step.shiftId && last.by === step.by
}
