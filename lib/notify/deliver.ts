import { randomUUID } from 'node:crypto'
import { now as clock } from '../clock.ts'
import { read, write } from '../store/index.ts'
import { dropLease, takeLease } from '../store/leases.ts'
import { type DueLetter, dueLetters, letterFailed, letterSent } from '../store/outbox-due.ts'
import { type House, NotToBeSent, wordsOf } from './letters.ts'
import { type Transport, transportFrom } from './transport.ts'

const AT_ONCE = 50
const LEASE_MS = 2 * 60_000
/** A letter that fails is tried again after 10 s, 20 s, 40 s … and given up a day after it was written. */
const FIRST_WAIT_MS = 10_000
const LONGEST_WAIT_MS = 60 * 60_000
const GIVE_UP_MS = 24 * 60 * 60_000

const holder = randomUUID()

export type Delivered = { sent: number; errors: { error: unknown; letterId: string }[] }

/**
 * Sends what is due in the outbox. A letter is sent at least once: a process that dies between handing it over and
 * noting it sends it again, under the same message id. One process at a time delivers.
 */
export async function deliver(transport: Transport, house: House, now: Date): Promise<Delivered> {
  const delivered: Delivered = { sent: 0, errors: [] }
  const { rows } = await read((tx) => dueLetters(tx, now, AT_ONCE))
  if (rows.length === 0 || !(await write((tx) => takeLease(tx, 'outbox', holder, now, LEASE_MS))))
    return delivered
  try {
    // Read again under the lease: what another process sent meanwhile is no longer due.
    const due = (await read((tx) => dueLetters(tx, now, AT_ONCE))).rows
    for (const letter of due) {
      try {
        if (isStale(letter, now)) throw new NotToBeSent('could not be sent within a day')
        await transport.send({ ...wordsOf(letter, house), messageId: `<${letter.id}@outflow-round>` })
        await write((tx) => letterSent(tx, letter.id, now))
        delivered.sent += 1
      } catch (error) {
        const isFinal = error instanceof NotToBeSent
        if (!isFinal) delivered.errors.push({ error, letterId: letter.id })
        const again = isFinal ? null : nextTry(letter, now)
        await write((tx) =>
          letterFailed(tx, letter.id, now, again, error instanceof Error ? error.message : String(error)),
        )
      }
    }
  } finally {
    await write((tx) => dropLease(tx, 'outbox', holder))
  }
  return delivered
}

const isStale = ({ recordedAt }: DueLetter, now: Date) => now.getTime() - Date.parse(recordedAt) >= GIVE_UP_MS
const nextTry = ({ attempts }: DueLetter, now: Date) =>
  new Date(now.getTime() + Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(attempts, 20)))

const EVERY_MS = 2_000
const KEY = Symbol.for('outflow.delivery')
const shared = globalThis as typeof globalThis & { [KEY]?: NodeJS.Timeout }

/** Delivers every two seconds in this process, started once. `onError` is told of each letter that failed, and of a round that did (null). */
export function startDelivery(
  house: House,
  onError: (error: unknown, letterId: string | null) => void,
): void {
  if (shared[KEY]) return
  const transport = transportFrom()
  let running = false
  shared[KEY] = setInterval(async () => {
    if (running) return
    running = true
    try {
      const { errors } = await deliver(transport, house, clock())
      for (const { error, letterId } of errors) onError(error, letterId)
    } catch (error) {
      onError(error, null)
    } finally {
      running = false
    }
  }, EVERY_MS)
  shared[KEY].unref()
}
