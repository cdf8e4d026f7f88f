import type { ImportOutcome, ImportProgress } from '@/lib/domain/import-file.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'

/** @example plural(1, 'report') // '1 report' */
export const plural = (count: number, word: string): string =>
  `${count.toLocaleString('en')} ${word}${count === 1 ? '' : 's'}`

const phases: Readonly<Record<ImportProgress['phase'], { doing: string; of: string }>> = {
  parsed: { doing: 'Read', of: 'line' },
  checked: { doing: 'Checked', of: 'line' },
  stored: { doing: 'Stored', of: 'report' },
  assessed: { doing: 'Assessed', of: 'patient' },
}

/** How far a file is, in words. */
export function progressText(progress: ImportProgress | null): string {
  if (progress === null) return 'Sending the file'
  const { doing, of } = phases[progress.phase]
  return `${doing} ${progress.done.toLocaleString('en')} of ${plural(progress.of, of)}`
}

/** What became of a file, in one sentence or two; times are those of the clinic's zone. */
export function outcomeText(outcome: ImportOutcome, zone: string): string {
  const { dryRun, lines, patients, reports, repeated, faults, takenAt } = outcome
  if (faults.length > 0)
    return `${plural(faults.length, 'fault')} in ${plural(new Set(faults.map(({ line }) => line)).size, 'line')}. Nothing is stored.`
  const before = repeated > 0 ? ` ${plural(repeated, 'line')} said before.` : ''
  if (takenAt !== null) return `This file was taken in on ${dayAndTime(takenAt, zone)}. It adds nothing.`
  if (reports === 0) return `${plural(lines, 'line')}, nothing new.${before}`
  const what = `${plural(reports, 'report')} of ${plural(patients, 'patient')}`
  return dryRun ? `${what} can be imported.${before}` : `${what} imported and assessed.${before}`
}
