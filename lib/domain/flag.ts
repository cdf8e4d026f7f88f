import { z } from 'zod'
import { Finding } from './assessment.ts'
import { Instant } from './instant.ts'
import { FindingCode, Nature, Urgency } from './words.ts'

/**
 * `open`: the finding holds. `owed`: its evidence has ended, but it was at-once or within-1h and
 * nobody has spoken to the patient. `closed`: a person closed it with an outcome. `ended`: the
 * evidence ended by itself (within-24h and within-3d only).
 */
export const FlagState = z.enum(['open', 'owed', 'closed', 'ended'])
export type FlagState = z.infer<typeof FlagState>

/** A finding with a life: what a row of the worklist is made of. Urgency and act by never soften before somebody has spoken to the patient. */
export const Flag = z.strictObject({
  id: z.string(),
  patientId: z.string(),
  drain: z.string().nullable(),
  code: FindingCode,
  nature: Nature,
  state: FlagState,
  urgency: Urgency.exclude(['none']),
  since: Instant,
  actBy: Instant,
  openedAt: Instant,
  /** The finding as it last held. */
  finding: Finding,
  closedAt: Instant.nullable(),
  closedBy: z.string().nullable(),
  /** The finding as it stood when it was closed: it comes back when worse than this. */
  closedFinding: Finding.nullable(),
  lookAgainAt: Instant.nullable(),
  spokenAt: Instant.nullable(),
  /** The version of the rule set under which it was opened; null for flags from before it was kept. */
  ruleSet: z.string().nullish(),
  /** As shown on the worklist: it has opened and ended again and again of late. */
  flutters: z.boolean().optional(),
})
export type Flag = z.infer<typeof Flag>

export const FlagStepKind = z.enum([
  'opened',
  'raised',
  'owed',
  'closed',
  'ended',
  'returned',
  'held-again',
  'eased',
  /** A recorded call was taken back within its minute, or corrected afterwards. */
  'undone',
  'corrected',
  'paused',
  'resumed',
])
export type FlagStepKind = z.infer<typeof FlagStepKind>

/** One step in a flag's life: who (null: the rules), when, why. */
export const FlagStep = z.strictObject({
  flagId: z.string(),
  at: Instant,
  kind: FlagStepKind,
  by: z.string().nullable(),
  why: z.string(),
  urgency: Urgency.exclude(['none']),
})
export type FlagStep = z.infer<typeof FlagStep>
