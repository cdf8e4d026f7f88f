import { z } from 'zod'
import { EndReason } from './follow-up.ts'
import { Instant, LocalDate } from './instant.ts'

/** What is looked for among the patients of a clinic: words of a name, or of a record number. */
export const Wanted = z.strictObject({
  find: z
    .string('accepted: words to find')
    .trim()
    .min(2, 'accepted: at least 2 characters')
    .max(100, 'accepted: at most 100 characters'),
})

/** A patient who was looked for, whether or not anything is flagged or follow-up has ended. */
export const FoundPatient = z.strictObject({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  lastHeardAt: Instant.nullable(),
  followUpEnd: EndReason.nullable(),
})
export type FoundPatient = z.infer<typeof FoundPatient>
