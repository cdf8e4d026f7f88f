import { z } from 'zod'
import type { ClinicHours } from './clinic-hours.ts'
import { Instant } from './instant.ts'
import { closedBetween, type Stretch } from './opening.ts'

const DAY_MS = 86_400_000
const LONGEST_DAYS = 31

const name = z
  .string({ error: 'accepted: a name' })
  .trim()
  .min(1, 'accepted: a name')
  .max(120, 'accepted: at most 120 characters')
const email = z.email({ error: 'accepted: an e-mail address' })
const phone = z
  .string({ error: 'accepted: a phone number' })
  .trim()
  .max(40, 'accepted: at most 40 characters')
  .regex(/^(?=(?:\D*\d){3})[+\d\s().#*/ext-]+$/i, 'accepted: a phone number, such as +1 555 0142')
const rank = z.int({ error: 'accepted: 1 to 9' }).min(1, 'accepted: 1 to 9').max(9, 'accepted: 1 to 9')

/** Somebody who is on call from one instant up to another. Rank 1 is called first. */
export const Shift = z.strictObject({
  id: z.string(),
  name,
  email: email.nullable(),
  phone: phone.nullable(),
  rank,
  from: Instant,
  until: Instant,
})
export type Shift = z.infer<typeof Shift>

export const NewShift = Shift.omit({ id: true }).superRefine((shift, context) => {
  const hours = Date.parse(shift.until) - Date.parse(shift.from)
  if (!(hours > 0))
    context.addIssue({ code: 'custom', path: ['until'], message: 'accepted: later than the beginning' })
  else if (hours > LONGEST_DAYS * DAY_MS)
    context.addIssue({
      code: 'custom',
      path: ['until'],
      message: `accepted: within ${LONGEST_DAYS} days of the beginning`,
    })
  if (shift.email === null && shift.phone === null)
    context.addIssue({
      code: 'custom',
      path: ['email'],
      message: 'accepted: an e-mail address or a phone number, else nothing can be sent',
    })
})
export type NewShift = z.infer<typeof NewShift>

const msOf = (at: Instant | number) => (typeof at === 'number' ? at : Date.parse(at))
const covers = ({ from, until }: Shift, ms: number) => Date.parse(from) <= ms && ms < Date.parse(until)

/** Who is on call at an instant, in the order in which they are called: rank, then who began first, then id. */
export const onCallAt = (shifts: readonly Shift[], at: Instant | number): Shift[] =>
  shifts
    .filter((shift) => covers(shift, msOf(at)))
    .toSorted(
      (a, b) =>
        a.rank - b.rank ||
        Date.parse(a.from) - Date.parse(b.from) ||
        (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
    )

/** The stretches outside clinic hours in which nobody is on call, in order. */
export function rotaGaps(
  shifts: readonly Shift[],
  hours: ClinicHours,
  zone: string,
  fromMs: number,
  untilMs: number,
): Stretch[] {
  const taken = shifts
    .map(({ from, until }) => ({ from: Date.parse(from), until: Date.parse(until) }))
    .toSorted((a, b) => a.from - b.from)
  return closedBetween(hours, zone, fromMs, untilMs).flatMap((closed) => {
    const gaps: Stretch[] = []
    let at = closed.from
    for (const { from, until } of taken) {
      if (until <= at || from >= closed.until) continue
      if (from > at) gaps.push({ from: at, until: from })
      at = Math.max(at, until)
    }
    if (at < closed.until) gaps.push({ from: at, until: closed.until })
    return gaps
  })
}

/** The rota as its screen reads it. */
export const RotaPage = z.strictObject({
  asOf: Instant,
  /** Shifts that are not over, by their beginning. */
  shifts: z.array(Shift),
  /** Null where the clinic has not said when it is open. */
  gaps: z.array(z.strictObject({ from: Instant, until: Instant })).nullable(),
  /** Who would be told now, in order. */
  now: z.array(z.string()),
})
export type RotaPage = z.infer<typeof RotaPage>
