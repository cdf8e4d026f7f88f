import type { CsvCell } from '../../domain/csv-text.ts'
import { isComplete } from '../../domain/day-limit.ts'
import { kindLabels } from '../../domain/labels.ts'
import type { PatientPage } from '../../domain/patient-page.ts'

/** A table: the names of its columns, and its rows. */
export type Table = { names: readonly string[]; rows: CsvCell[][] }

/** Two identifiers stand in every row, since rows are copied out of their file. */
export const IDENTIFIERS = ['name', 'birth_date', 'record_number'] as const
export const identifiersOf = ({ patient }: PatientPage): CsvCell[] => [
  patient.name,
  patient.birthDate,
  patient.recordNumber,
]

/** One row per day and drain, as the charts have them: volumes in mL, unrounded; what is not known is empty. */
export function dayTable(page: PatientPage): Table {
  const kinds = new Map(page.record.drains.map(({ id, kind }) => [id, kindLabels[kind]]))
  return {
    names: [
      ...IDENTIFIERS,
      'drain',
      'drain_kind',
      'date',
      'time_zone',
      'day_hours',
      'net_ml',
      'at_least',
      'coverage',
      'complete',
      'usual_ml_per_day_now',
      'usual_from',
    ],
    rows: page.assessment.drains.flatMap(({ drain, days, baselineMlPerDay, baselineFrom }) =>
      days.map(({ date, hours, netMl, atLeast, coverage }) => [
        ...identifiersOf(page),
        page.labels[drain]?.label ?? drain,
        kinds.get(drain) ?? null,
        date,
        page.record.timeZone,
        hours,
        netMl,
        netMl === null ? null : (atLeast ?? false),
        coverage,
        netMl === null ? null : isComplete(coverage, page.limits),
        baselineMlPerDay,
        baselineFrom,
      ]),
    ),
  }
}
