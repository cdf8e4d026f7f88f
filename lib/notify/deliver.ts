import { randomUUID } from 'node:crypto'
import { read, write } from '../store/index.ts'
import { dropLease, takeLease } from '../store/leases.ts'
import { type DueLetter, dueLetters, letterFailed, letterPutOff, letterSent } from '../store/outbox-due.ts'
import { NotToBeSent, NotYet } from './held-back.ts'
import { type House, type Lane, lanes, wordsOf } from './letters.ts'
import type { Transports } from './transport.ts'

const AT_ONCE = 50
/** One letter may take this long, then it counts as failed and the next one has its turn. */
const LETTER_MS = 30_000
/** No letter is begun later than this in a round; what is left is due in the next. */
const ROUND_MS = 60_000
/** Longer than a round with its last letter can take: nobody else delivers meanwhile. */
const LEASE_MS = 2 * 60_000
/** A letter that fails is tried again after 10 s, 20 s, 40 s … and given up a day after it was written. */
const FIRST_WAIT_MS = 10_000
const LONGEST_WAIT_MS = 60 * 60_000
const GIVE_UP_MS = 24 * 60 * 60_000

const holder = randomUUID()

export type Delivered = { sent: number; errors: { error: unknown; letterId: string }[] }

export type Limits = { letterMs: number; roundMs: number }
const usual: Limits = { letterMs: LETTER_MS, roundMs: ROUND_MS }

/**
 * Sends what is due in one lane. A letter is sent at least once: a process that dies between handing it over and
 * noting it sends it again, under the same id. One process at a time delivers in a lane.
 */
export async function deliverLane(
  lane: Lane,
  transports: Transports,
  house: House,
  now: Date,
  { letterMs, roundMs }: Limits = usual,
): Promise<Delivered> {
  const delivered: Delivered = { sent: 0, errors: [] }
  const due = async () => (await read((tx) => dueLetters(tx, lanes[lane], now, AT_ONCE))).rows
  if ((await due()).length === 0) return delivered
  const lease = `outbox ${lane}`
  if (!(await write((tx) => takeLease(tx, lease, holder, now, LEASE_MS)))) return delivered
  const transport = transports[lanes[lane].by]
  const roundEnds = AbortSignal.timeout(roundMs)
  try {
    // Read again under the lease: what another process sent meanwhile is no longer due.
    for (const letter of await due()) {
      if (roundEnds.aborted) break
      try {
        if (isStale(letter, now)) throw new NotToBeSent('could not be sent within a day')
        const words = await wordsOf(letter, house, now)
        await within(letterMs, (signal) => transport.send({ ...words, id: letter.id }, signal))
        await write((tx) => letterSent(tx, letter.id, now))
        delivered.sent += 1
      } catch (error) {
        if (!(error instanceof NotToBeSent || error instanceof NotYet))
          delivered.errors.push({ error, letterId: letter.id })
        await noteFailure(letter, error, now)
      }
    }
  } finally {
    await write((tx) => dropLease(tx, lease, holder))
  }
  return delivered
}

function noteFailure(letter: DueLetter, error: unknown, now: Date): Promise<void> {
  if (error instanceof NotYet) return write((tx) => letterPutOff(tx, letter.id, error.until))
  const again = error instanceof NotToBeSent ? null : nextTry(letter, now)
  const why = error instanceof Error ? error.message : String(error)
  return write((tx) => letterFailed(tx, letter.id, now, again, why))
}

/** Waits no longer than that, whatever becomes of the work: what arrives after all has the id of its repeat. */
async function within(ms: number, work: (signal: AbortSignal) => Promise<void>): Promise<void> {
  const signal = AbortSignal.timeout(ms)
  const late = new Promise<never>((_, reject) => {
    signal.addEventListener('abort', () => reject(new Error(`no answer within ${Math.round(ms / 1000)} s`)))
  })
  await Promise.race([work(signal), late])
}

const isStale = ({ recordedAt }: DueLetter, now: Date) => now.getTime() - Date.parse(recordedAt) >= GIVE_UP_MS
const nextTry = ({ attempts }: DueLetter, now: Date) =>
  new Date(now.getTime() + Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(attempts, 20)))
