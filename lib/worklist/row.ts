import type { StandingAdmission } from '../domain/admission.ts'
import { urgencyRank } from '../domain/words.ts'
import type { Hold, WorklistRow } from '../domain/worklist.ts'
import { type KeptFlag, shown } from '../store/flags.ts'
import type { RowPatient } from '../store/worklist-rows.ts'
import { compareFlags, isOverdue, partOf } from './order.ts'

const DAY_MS = 86_400_000

/** One row: a patient with the flags that stand. Without any it is there for a promise to look again. */
export function rowFor(
  patient: RowPatient,
  kept: readonly KeptFlag[],
  hold: Hold | null,
  now: string,
  stay: StandingAdmission | null = null,
): Omit<WorklistRow, 'nameAlert' | 'onCall' | 'nextTry'> {
  const { lookAgainAt, lookAgainWhy: why, attempts, onlyKidney, ...rest } = patient
  const flags = kept.map(shown).toSorted(compareFlags)
  const admission = patient.followUpEnd === null ? stay : null
  const lookAgainWhy = lookAgainAt !== null && lookAgainAt <= now ? why : null
  const pressing = more(
    flags.length > 0 || (admission !== null && !isDue(lookAgainAt, now))
      ? pressingOf(flags)
      : promised(lookAgainAt ?? now),
    lookAgainAt !== null && lookAgainWhy !== null ? promised(lookAgainAt) : null,
  )
  const opened = flags.map(({ openedAt }) => Date.parse(openedAt))
  const from = opened.length > 0 ? Math.min(...opened) : Number.NEGATIVE_INFINITY
  return {
    ...rest,
    ...pressing,
    // In hospital nothing is due: what is flagged stays in sight without its deadline.
    actBy: admission === null ? pressing.actBy : null,
    overdue: admission === null && isOverdue(pressing.actBy, now),
    admission,
    part:
      admission !== null
        ? 'in-hospital'
        : lookAgainWhy !== null
          ? 'clinical'
          : partOf({ flags, drains: patient.drains, onlyKidney, now }),
    flags,
    lookAgainWhy,
    hold,
    attempts: attempts.filter((at) => Date.parse(at) >= from).length,
  }
}

const isDue = (at: string | null, now: string) => at !== null && at <= now

/** The more urgent of two; the earliest act by of both. */
function more(flagged: Pressing, late: Pressing | null): Pressing {
  if (late === null) return flagged
  const [first, second] =
    urgencyRank[flagged.urgency] >= urgencyRank[late.urgency] ? [flagged, late] : [late, flagged]
  const acts = [first.actBy, second.actBy].filter((at) => at !== null)
  return { ...first, actBy: acts.toSorted((a, b) => Date.parse(a) - Date.parse(b))[0] ?? null }
}

type Pressing = Pick<WorklistRow, 'urgency' | 'actBy' | 'since'>

/** The most urgent flag's urgency and since; the earliest act by of all. */
function pressingOf(flags: WorklistRow['flags']): Pressing {
  const urgency = flags[0]?.urgency ?? 'none'
  const earliest = (instants: string[]) =>
    instants.toSorted((a, b) => Date.parse(a) - Date.parse(b))[0] ?? null
  return {
    urgency,
    actBy: earliest(flags.map(({ actBy }) => actBy)),
    since: earliest(flags.filter((flag) => flag.urgency === urgency).map(({ since }) => since)),
  }
}

/** A promised call that hangs on no flag: within a day of the time that was promised. */
const promised = (lookAgainAt: string): Pressing => ({
  urgency: 'within-24h',
  actBy: new Date(Date.parse(lookAgainAt) + DAY_MS).toISOString(),
  since: lookAgainAt,
})
