import { addDays } from '../../domain/local-time.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { dayStart } from '../../rules/series/days.ts'
import type { Task } from './outcome.ts'
import type { InForce } from './replay-patient.ts'

/** What is run: whole local days of the clinic, both ends included, as far as they were known at the cut-off. */
export type Run = {
  clinicId: string
  zone: string
  draft: RuleSet
  inForce: InForce
  from: string
  until: string
  laterFrom: string | null
  cutOff: string
}

/** The same in instants: the period ends with its last day, or at the cut-off. */
export function taskOf({ clinicId, zone, draft, inForce, from, until, laterFrom, cutOff }: Run): Task {
  return {
    ...{ clinicId, draft, inForce, from: dayStart(zone, from) },
    later: laterFrom === null ? null : dayStart(zone, laterFrom),
    until: Math.min(dayStart(zone, addDays(until, 1)) - 1, Date.parse(cutOff)),
  }
}
