import type { Finding } from '../domain/assessment.ts'
import type { WorklistRow } from '../domain/worklist.ts'

/** Fine enough that a day which is complete by the rules stays so. */
const COVERAGE_STEPS = 10_000

/**
 * A row with what the list shows of it. What a finding rests on, piece by piece, and how a closed one stood are
 * read on the patient's page; figures of the small picture are finer than it can draw.
 */
export function slim(row: WorklistRow): WorklistRow {
  return {
    ...row,
    flags: row.flags.map((flag) => ({
      ...flag,
      finding: withoutEvidence(flag.finding),
      closedFinding: null,
    })),
    drains: row.drains.map((drain) => ({
      ...drain,
      days: drain.days.map(({ date, netMl, coverage, hours }) => ({
        date,
        netMl: netMl === null ? null : Math.round(netMl),
        coverage: Math.floor(coverage * COVERAGE_STEPS + 1e-6) / COVERAGE_STEPS,
        hours,
      })),
    })),
  }
}

const withoutEvidence = (finding: Finding): Finding => ({ ...finding, evidence: [] })
