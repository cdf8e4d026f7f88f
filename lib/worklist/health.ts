import { now as clock } from '../clock.ts'
import { read } from '../store/index.ts'
import { type SweepHealth, sweepHealth } from './sweep-timer.ts'
import { type Trouble, troublesNow } from './troubles.ts'

/** Whether the server does its own work: the sweep, the letters, what tells the person on call. */
export async function serverHealth(now: Date = clock()): Promise<SweepHealth & { troubles: Trouble[] }> {
  return { ...(await sweepHealth()), troubles: await read((tx) => troublesNow(tx, now)) }
}
