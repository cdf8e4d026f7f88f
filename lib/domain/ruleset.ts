import { z } from 'zod'
import { Confidence } from './words.ts'

/**
 * One version of all thresholds, as data. Which names there are, and within what range each may be
 * set, is decided by the rules (lib/rules/thresholds.ts); this is the shape in which a version is
 * stored, printed and read back.
 */
export const Threshold = z.strictObject({
  value: z.number(),
  unit: z.string(),
  min: z.number(),
  max: z.number(),
  source: z.string(),
  confidence: Confidence,
})
export type Threshold = z.infer<typeof Threshold>

export const RuleSet = z.strictObject({
  version: z.string().min(1).max(60),
  thresholds: z.record(z.string(), Threshold),
})
export type RuleSet = z.infer<typeof RuleSet>
