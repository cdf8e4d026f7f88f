import type { LocalDate } from '@/lib/domain/instant.ts'
import { addDays, fullDate, localDate } from '@/lib/domain/local-time.ts'
import { MOST_CALLS, type PatientPage } from '@/lib/domain/patient-page.ts'
import type { Axis } from './axis.ts'

type Bounded = Pick<PatientPage, 'from' | 'leftOut' | 'callbacks' | 'notes'> & {
  record: Pick<PatientPage['record'], 'timeZone'>
}

/** The first day of which all reports are on the page, from its midnight. */
export const firstDayHere = ({ from, leftOut, record }: Omit<Bounded, 'callbacks' | 'notes'>): LocalDate =>
  leftOut?.before ?? addDays(localDate(from, record.timeZone), 1)

/** Says that there is nothing of a kind, as far as the page reaches back. */
export function noneSays(
  page: Omit<Bounded, 'callbacks' | 'notes' | 'record'> & Pick<PatientPage, 'record'>,
): string {
  const first = firstDayHere(page)
  return first <= localDate(page.record.enrolledAt, page.record.timeZone)
    ? 'None so far.'
    : `None since ${fullDate(first)}. Earlier ones are not here.`
}

/**
 * Where the axis begins before what the page has: from when on each kind of what it draws is there. Orders, events and flags that
 * stand are all there, however old.
 */
export function reachSays(page: Bounded, { first }: Axis): string[] {
  const { timeZone: zone } = page.record
  const whole = firstDayHere({ ...page, leftOut: null })
  const last = (name: string, all: readonly { at: string }[]) => {
    const oldest =
      all.length < MOST_CALLS ? undefined : all.map(({ at }) => localDate(at, zone)).toSorted()[0]
    return oldest && first <= oldest ? [`the last ${all.length} ${name} from ${fullDate(oldest)} on`] : []
  }
  const bounded = [
    ...(first < whole ? [`reports and past flags from ${fullDate(whole)} on`] : []),
    ...last('calls', page.callbacks),
    ...last('notes', page.notes),
  ]
  return bounded.length > 0 ? [`Shown are ${bounded.join('; ')}. Earlier ones are on record, not here.`] : []
}
