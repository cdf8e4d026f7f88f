import { type DrainRule, found, quiet } from './rule.ts'
import { criterion, localTime, noted, threshold } from './telling.ts'

const DAY_MS = 86_400_000

/** Is a change of the tube due and not booked, or was a booked one missed? A booking counts while it is later than the newest tube. */
export const exchangeDue: DrainRule = {
  code: 'exchange-due',
  scope: 'drain',
  judge(drain, at) {
    const { facts, limits, tube, view } = drain
    const zone = view.record.zone
    const booking =
      facts.exchangeBookedFor !== null && facts.exchangeBookedFor > tube.newest
        ? facts.exchangeBookedFor
        : null
    const ends = 'It ends when the exchange is booked ahead, or recorded as done.'
    if (booking !== null) {
      if (at < booking) return quiet(booking)
      return found(
        'within-24h',
        () => ({
          says: `The exchange booked for ${localTime(zone, booking)} has passed and no new tube is recorded.`,
          ends,
          evidence: [noted(booking, 'exchange booked for', null)],
          threshold: criterion(
            'exchangeBookedFor',
            new Date(booking).toISOString(),
            'The order of this drain.',
            'local choice',
          ),
        }),
        undefined,
        'upkeep',
      )
    }
    const every = facts.plan.exchangeEveryDays
    if (every == null) return quiet()
    const due = tube.newest + every * DAY_MS
    const soon = due - limits.exchangeSoonDays * DAY_MS
    if (at < soon) return quiet(soon)
    return found(
      at >= due ? 'within-24h' : 'within-3d',
      () => ({
        says: `${at >= due ? 'An exchange was' : 'An exchange is'} due ${localTime(zone, due)}, ${every} days after the tube was put in, and none is booked.`,
        ends,
        evidence: [noted(tube.newest, 'tube put in', null)],
        threshold: threshold('exchangeSoonDays', limits),
      }),
      at >= due ? undefined : due,
      'upkeep',
    )
  },
}
