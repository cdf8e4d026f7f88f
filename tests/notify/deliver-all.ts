import { type Delivered, deliverLane, type Limits } from '../../lib/notify/deliver.ts'
import { type House, type Lane, lanes } from '../../lib/notify/letters.ts'
import type { Transports } from '../../lib/notify/transport.ts'

/** Sends what is due in the whole outbox, lane beside lane, as the timer does. */
export async function deliver(
  transports: Transports,
  house: House,
  now: Date,
  limits?: Limits,
): Promise<Delivered> {
  const all = Object.keys(lanes) as Lane[]
  const done = await Promise.all(all.map((lane) => deliverLane(lane, transports, house, now, limits)))
  return {
    sent: done.reduce((sum, { sent }) => sum + sent, 0),
    errors: done.flatMap(({ errors }) => errors),
  }
}
