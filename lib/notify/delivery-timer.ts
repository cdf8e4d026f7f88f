import { now as clock } from '../clock.ts'
import { deliverLane } from './deliver.ts'
import { type House, type Lane, lanes } from './letters.ts'
import { transportsFrom } from './transport.ts'

const EVERY_MS = 2_000
const KEY = Symbol.for('outflow.delivery')
const shared = globalThis as typeof globalThis & { [KEY]?: NodeJS.Timeout }

/**
 * Delivers every two seconds in this process, started once; each lane for itself, so that a mail server that
 * hangs on one keeps nothing waiting in another. `onError` is told of each letter that failed, and of a round that did (null).
 */
export function startDelivery(
  house: House,
  onError: (error: unknown, letterId: string | null) => void,
): void {
  if (shared[KEY]) return
  const transports = transportsFrom()
  const busy = new Set<Lane>()
  const run = async (lane: Lane) => {
    if (busy.has(lane)) return
    busy.add(lane)
    try {
      const { errors } = await deliverLane(lane, transports, house, clock())
      for (const { error, letterId } of errors) onError(error, letterId)
    } catch (error) {
      onError(error, null)
    } finally {
      busy.delete(lane)
    }
  }
  shared[KEY] = setInterval(() => {
    for (const lane of Object.keys(lanes) as Lane[]) void run(lane)
  }, EVERY_MS)
  shared[KEY].unref()
}
