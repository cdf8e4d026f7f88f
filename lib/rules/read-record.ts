import { type Fault, faultsOf } from '../domain/problem.ts'
import { PatientRecord } from '../domain/record.ts'
import { overrideFaults } from './thresholds.ts'

/** A record that can be assessed, or every fault that keeps it from being. */
export type ReadRecord = { record: PatientRecord; faults: [] } | { record: null; faults: Fault[] }

/** Reads a record from parsed JSON: shape, ranges, references, and a drain's own thresholds within their range. */
export function readRecord(input: unknown): ReadRecord {
  const parsed = PatientRecord.safeParse(input)
  if (!parsed.success) return { record: null, faults: faultsOf(parsed.error, input) }
  const faults = parsed.data.drains.flatMap((drain, i) =>
    overrideFaults(drain.plan.overrides ?? {}).map(({ name, value, message }) => ({
      field: `drains[${i}].plan.overrides.${name}`,
      value,
      message,
    })),
  )
  return faults.length > 0 ? { record: null, faults } : { record: parsed.data, faults: [] }
}
