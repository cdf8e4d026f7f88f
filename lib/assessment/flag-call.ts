import type { FlagStep } from '../domain/flag.ts'
import type { Fault } from '../domain/problem.ts'
import type { KeptFlag } from '../store/flags.ts'
import { isPressing, stands, step } from './flag-life.ts'

/** A call in which somebody was reached, as far as flags go. */
export type Call = {
  at: string
  by: string
  closes: readonly string[]
  lookAgainAt: string | null
  why: string
}

/** What forbids a call to close what it names: a flag that does not stand, or no time to look again where one is due. */
export function closingFaults(flags: readonly KeptFlag[], { closes, lookAgainAt }: Call): Fault[] {
  const standing = flags.filter(stands)
  const accepted = standing.map(({ id }) => id).join(', ') || 'none, no flag stands'
  const unknown = closes
    .map((id, i) => ({ id, i }))
    .filter(({ id }) => !standing.some((flag) => flag.id === id))
    .map(({ id, i }) => ({
      field: `closes[${i}]`,
      value: id,
      message: `names no standing flag; accepted: ${accepted}`,
    }))
  const needing = standing.filter(
    (flag) => closes.includes(flag.id) && flag.state === 'open' && isPressing(flag.urgency),
  )
  if (needing.length === 0 || lookAgainAt !== null) return unknown
  const codes = needing.map(({ code }) => code).join(', ')
  return [
    ...unknown,
    { field: 'lookAgainAt', message: `is missing; needed to close what still holds: ${codes}` },
  ]
}

/**
 * What a call that reached somebody does to the flags. Pure. What it names is closed; a call that was owed is
 * hereby made; for the others somebody has now spoken to the patient.
 */
export function applyCall(
  flags: readonly KeptFlag[],
  call: Call,
): { flags: KeptFlag[]; steps: FlagStep[]; closed: KeptFlag[] } {
  const moved: KeptFlag[] = []
  const closed: KeptFlag[] = []
  const steps: FlagStep[] = []
  for (const flag of flags.filter(stands)) {
    const isNamed = call.closes.includes(flag.id)
    if (!isNamed && flag.state === 'open') {
      moved.push({ ...flag, spokenAt: call.at })
      continue
    }
    const next: KeptFlag = {
      ...flag,
      state: 'closed',
      spokenAt: call.at,
      closedAt: call.at,
      closedBy: call.by,
      closedFinding: flag.finding,
      holdsStill: flag.state === 'open',
      lookAgainAt: isNamed ? call.lookAgainAt : null,
    }
    moved.push(next)
    closed.push(next)
    steps.push(
      step(
        next,
        call.at,
        'closed',
        call.by,
        isNamed ? call.why : `The call that was owed was made. ${call.why}`.trim(),
      ),
    )
  }
  return { flags: moved, steps, closed }
}
