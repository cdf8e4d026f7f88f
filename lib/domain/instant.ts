import { z } from 'zod'

/** An instant with its offset, RFC 3339: `2026-03-02T08:05:00-07:00`. Two texts with other offsets can name one instant. */
export const Instant = z.iso.datetime({
  offset: true,
  error: 'accepted: an instant with offset, such as 2026-03-02T08:05:00-07:00',
})
export type Instant = z.infer<typeof Instant>

/** Zones that were found to be ones: asking costs as much as reading a whole report. */
const zones = new Set<string>()

function isZone(name: string): boolean {
  if (zones.has(name)) return true
  if (!/^[A-Za-z]/.test(name)) return false // an offset such as +05:00 is no place: it knows no clock changes
  try {
    new Intl.DateTimeFormat('en', { timeZone: name })
    zones.add(name)
    return true
  } catch {
    return false
  }
}

/** A time zone of the IANA database, such as `America/Denver`. */
export const TimeZone = z.string().refine(isZone, {
  error: 'accepted: a time zone of the IANA database, such as America/Denver',
})
export type TimeZone = z.infer<typeof TimeZone>

/** A local calendar date, `2026-03-02`. */
export const LocalDate = z.iso.date({ error: 'accepted: a date such as 2026-03-02' })
export type LocalDate = z.infer<typeof LocalDate>
