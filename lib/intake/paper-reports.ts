import { NOTE_MAX } from '../domain/limits.ts'
import { clockTime, localDate } from '../domain/local-time.ts'
import { READINGS_MAX, type Submission } from '../domain/submission.ts'
import type { CheckedRow } from './paper-check.ts'

/** Said in the note of each report, so that whoever reads it knows where it is from. */
const FROM = 'From the paper log.'

/** The reports that the rows of a sheet make: one a row, or what fits together of a day. */
export function reportsOfRows(rows: readonly CheckedRow[], by: 'row' | 'day'): Submission[] {
  const made = rows.map(({ said }) => said)
  if (by === 'row') return made.map(({ says }) => noted(says, says.note ? [says.note] : []))
  const days = new Map<string, { says: Submission; notes: string[] }[]>()
  for (const { says, timeZone } of made) {
    const at = timeOf(says)
    const day = at === null ? '' : localDate(at, timeZone)
    const group = days.get(day) ?? []
    days.set(day, group)
    const notes = says.note ? [at === null ? says.note : `${clockTime(at, timeZone)}: ${says.note}`] : []
    const into = group.find((one) => fits(one.says, says))
    if (into) {
      into.says = joined(into.says, says)
      into.notes.push(...notes)
    } else group.push({ says, notes })
  }
  return [...days.values()].flat().map(({ says, notes }) => noted(says, notes))
}

const noted = (says: Submission, notes: readonly string[]): Submission => ({
  ...says,
  note: [FROM, ...notes].join('\n').slice(0, NOTE_MAX),
})

const timeOf = ({ readings, flushes, dressings, symptoms }: Submission): string | null =>
  readings?.[0]?.at ?? flushes?.[0]?.at ?? dressings?.[0]?.at ?? symptoms?.at ?? null

/** One report has one statement of how the patient is, and no more parts than a report takes. */
const fits = (one: Submission, more: Submission) =>
  !(one.symptoms && more.symptoms) &&
  (['readings', 'flushes', 'dressings'] as const).every(
    (part) => (one[part]?.length ?? 0) + (more[part]?.length ?? 0) <= READINGS_MAX,
  )

const joined = (one: Submission, more: Submission): Submission => ({
  ...one,
  readings: [...(one.readings ?? []), ...(more.readings ?? [])],
  flushes: [...(one.flushes ?? []), ...(more.flushes ?? [])],
  dressings: [...(one.dressings ?? []), ...(more.dressings ?? [])],
  symptoms: one.symptoms ?? more.symptoms,
})
