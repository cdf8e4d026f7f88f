import { duration } from '../domain/local-time.ts'
import { lanes } from '../notify/letters.ts'
import type { Tx } from '../store/index.ts'
import { oldestStuck } from '../store/outbox-due.ts'
import { isLate } from './pulse.ts'
import { SWEEP } from './sweep-timer.ts'

/** The name under which the watchdog asks whether escalations are looked after. */
export const ESCALATIONS = 'escalations'
/** A letter that has waited longer than this says that letters do not go out. */
export const STUCK_LETTER_MS = 10 * 60_000

const PRESSING = [...lanes.pressing.only, ...lanes['pressing-text'].only]

/** What of the server's own work has stopped. */
export type Trouble = { what: 'sweep' | 'outbox' | 'escalations'; says: string }

/** What has stopped, as of now: deadlines that nobody watches, letters that do not go out, escalations that stand still. */
export async function troublesNow(tx: Tx, now: Date): Promise<Trouble[]> {
  const stuckSince = await oldestStuck(tx, new Date(now.getTime() - STUCK_LETTER_MS), PRESSING)
  const all: (Trouble | null)[] = [
    isLate(SWEEP)
      ? { what: 'sweep', says: 'The sweep has stopped: what only time changes does not come to this list.' }
      : null,
    stuckSince === null
      ? null
      : {
          what: 'outbox',
          says: `Letters do not go out: the oldest has waited ${duration(now.getTime() - Date.parse(stuckSince))}.`,
        },
    isLate(ESCALATIONS)
      ? {
          what: 'escalations',
          says: 'Nobody is told after hours: what tells the person on call has stopped.',
        }
      : null,
  ]
  return all.filter((one) => one !== null)
}
