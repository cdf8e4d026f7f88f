import type { ClinicSettings, Weekday } from '@/lib/domain/clinic-hours.ts'
import type { LocalDate } from '@/lib/domain/instant.ts'
import { usualQuietHours } from '@/lib/domain/quiet-hours.ts'

/** Each thing that can be added has a number of its own: what is typed stays with its row when another is removed. */
export type SpanDraft = { n: number; from: string; until: string }
export type HolidayDraft = { n: number; date: string; name: string }

/** The settings as the form holds them: texts, as they are typed. */
export type ClinicDraft = {
  phone: string
  afterHoursPhone: string
  /** Whether patients are told when somebody reads. */
  saysHours: boolean
  week: Record<Weekday, SpanDraft[]>
  holidays: HolidayDraft[]
  quietFrom: string
  quietUntil: string
  next: number
}

export const weekdays: readonly { day: Weekday; name: string }[] = [
  { day: 'mon', name: 'Monday' },
  { day: 'tue', name: 'Tuesday' },
  { day: 'wed', name: 'Wednesday' },
  { day: 'thu', name: 'Thursday' },
  { day: 'fri', name: 'Friday' },
  { day: 'sat', name: 'Saturday' },
  { day: 'sun', name: 'Sunday' },
]

export function draftOfClinic({ phone, afterHoursPhone, hours, quiet }: ClinicSettings): ClinicDraft {
  let next = 0
  const week = Object.fromEntries(
    weekdays.map(({ day }) => [day, (hours?.week[day] ?? []).map((span) => ({ n: next++, ...span }))]),
  ) as ClinicDraft['week']
  const holidays = (hours?.holidays ?? []).map((holiday) => ({ n: next++, ...holiday }))
  const { from: quietFrom, until: quietUntil } = quiet ?? usualQuietHours
  return {
    phone,
    afterHoursPhone: afterHoursPhone ?? '',
    saysHours: hours !== null,
    week,
    holidays,
    quietFrom,
    quietUntil,
    next,
  }
}

/** What is sent: a day without a span is closed, and holidays stand in their order. */
export function toClinicSettings(draft: ClinicDraft): ClinicSettings {
  const week = Object.fromEntries(
    weekdays.flatMap(({ day }) => {
      const spans = draft.week[day].map(({ from, until }) => ({ from, until }))
      return spans.length > 0 ? [[day, spans.toSorted((a, b) => a.from.localeCompare(b.from))]] : []
    }),
  )
  const holidays = draft.holidays
    .map(({ date, name }) => ({ date: date as LocalDate, name: name.trim() }))
    .toSorted((a, b) => a.date.localeCompare(b.date))
  return {
    phone: draft.phone.trim(),
    afterHoursPhone: draft.afterHoursPhone.trim() || null,
    hours: draft.saysHours ? { week, holidays } : null,
    quiet: { from: draft.quietFrom, until: draft.quietUntil },
  }
}

/** The draft with one more opening on a day: the hours of the day before it that has some, else office hours. */
export function withSpan(draft: ClinicDraft, day: Weekday): ClinicDraft {
  const before = weekdays
    .slice(
      0,
      weekdays.findIndex((one) => one.day === day),
    )
    .findLast((one) => draft.week[one.day].length > 0)
  const model =
    draft.week[day].length === 0 && before
      ? draft.week[before.day].map(({ from, until }) => ({ from, until }))
      : [draft.week[day].length === 0 ? { from: '08:00', until: '17:00' } : { from: '', until: '' }]
  const added = model.map((span, i) => ({ n: draft.next + i, ...span }))
  return {
    ...draft,
    week: { ...draft.week, [day]: [...draft.week[day], ...added] },
    next: draft.next + added.length,
  }
}
