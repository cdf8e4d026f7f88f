import type { Finding } from '../../domain/assessment.ts'
import type { FindingCode } from '../../domain/words.ts'
import type { SimulatedPatient, TrueEventType, Truth } from '../../simulate/index.ts'

type Answer = { readonly types: readonly TrueEventType[]; readonly anyFever?: boolean }

const LOW: readonly TrueEventType[] = [
  'sudden-obstruction',
  'gradual-obstruction',
  'drain-out',
  'drain-moved',
]
const BLOCKED: readonly TrueEventType[] = ['sudden-obstruction', 'gradual-obstruction']

/**
 * Which true events a finding is right about. Strict: a true but harmless leak, a cold or a pain that is
 * not of the drain make a flag false. `skin-broken`, `cap-failing` and the upkeep codes answer no event.
 */
const answers: Partial<Record<FindingCode, Answer>> = {
  'output-stopped': { types: LOW },
  'output-decline': { types: LOW },
  'output-surge': { types: ['fistula'] },
  'drain-out': { types: ['drain-out'] },
  'drain-moved': { types: ['drain-moved', 'drain-out'] },
  bleeding: { types: ['bleeding'] },
  'infection-signs': { types: ['infection'], anyFever: true },
  'blocked-and-infected': { types: [], anyFever: true },
  leak: { types: ['sudden-obstruction', 'gradual-obstruction', 'drain-moved'] },
  'severe-pain': { types: BLOCKED },
  unwell: { types: ['bleeding', 'infection'], anyFever: true },
  'emergency-symptoms': { types: ['bleeding', 'infection'], anyFever: true },
  'flush-blocked': { types: BLOCKED },
  'flush-retained': { types: BLOCKED },
  'removal-check': { types: ['recovery'] },
  'log-missed': { types: ['silence'] },
}

/** Codes by which a fall of a steady drain's output alone is seen. */
export const OUTPUT_CODES: readonly FindingCode[] = ['output-stopped', 'output-decline']
export const LOW_TYPES = LOW

/** Whether a finding answers this event: of its kind, and of its drain where both name one. */
export function isAbout(finding: Pick<Finding, 'code' | 'drain'>, event: Truth, at: number): boolean {
  const answer = answers[finding.code]
  if (!answer) return false
  if (finding.drain !== null && event.drain !== null && finding.drain !== event.drain) return false
  return (
    answer.types.includes(event.type) ||
    (answer.anyFever === true && event.feverFrom !== null && Date.parse(event.feverFrom) <= at)
  )
}

/** A statement still counts for 24 h, and what was just mended may still be told about. */
const ECHO_MS = 24 * 3_600_000

/** Whether something true stands behind a flag that opens now. */
export function isRight(finding: Finding, patient: SimulatedPatient, at: number): boolean {
  if (finding.code === 'reading-suspect')
    return finding.evidence.some(({ report }) => report !== null && patient.truth.mistyped.has(report))
  return patient.truth.events.some(
    (event) =>
      isAbout(finding, event, at) &&
      Date.parse(event.onset) <= at &&
      (event.type === 'fistula' || event.end === null || at <= Date.parse(event.end.at) + ECHO_MS),
  )
}
