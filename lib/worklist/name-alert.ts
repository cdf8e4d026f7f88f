import { alikeNames, likeBirthDates } from '../domain/alike.ts'
import { grouped } from '../store/rows.ts'

type Named = { patientId: string; name: string; birthDate: string }

/** The rows that stand on one list with another of a like name and birth date: there a slip of the eye is likeliest. */
export function alikeOnList(rows: readonly Named[]): Set<string> {
  const byDate = grouped(rows, ({ birthDate }) => birthDate)
  const alike = new Set<string>()
  for (const row of rows)
    for (const date of likeBirthDates(row.birthDate))
      for (const other of byDate.get(date) ?? [])
        if (other.patientId !== row.patientId && alikeNames(other.name, row.name)) {
          alike.add(row.patientId)
          alike.add(other.patientId)
        }
  return alike
}
