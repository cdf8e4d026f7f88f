import { findingLabels, kindLabels } from '@/lib/domain/labels.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'

const texts = new WeakMap<WorklistRow, string>()

/** What a row can be found by: both identifiers, phone, drains and their kinds, findings and their codes. */
function textOf(row: WorklistRow): string {
  const known = texts.get(row)
  if (known !== undefined) return known
  const text = [
    row.name,
    row.birthDate,
    row.recordNumber,
    row.phone ?? '',
    ...row.drains.flatMap(({ label, kind }) => [label, kind, kindLabels[kind]]),
    ...row.flags.flatMap(({ code }) => [code, findingLabels[code]]),
  ]
    .join(' ')
    .toLowerCase()
  texts.set(row, text)
  return text
}

/** Whether a row holds every word that is looked for; for nothing, every row does. */
export function finder(wanted: string): (row: WorklistRow) => boolean {
  const words = wanted.toLowerCase().split(/\s+/).filter(Boolean)
  return (row) => words.every((word) => textOf(row).includes(word))
}
