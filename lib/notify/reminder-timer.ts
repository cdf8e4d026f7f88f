import { now as clock } from '../clock.ts'
import { read, write } from '../store/index.ts'
import { patientsToRemind, setNextReminder } from '../store/reminders.ts'
import { remind } from './reminders.ts'

const ROUND = 50
const EVERY_MS = 3_000
/** After how long a patient whose reminder could not be given is tried again. */
const AGAIN_MS = 10 * 60_000

export type Reminded = { given: number; errors: { patientId: string; error: unknown }[] }

/**
 * Gives the reminders that are due, to those patients alone whom the index names. One that fails holds up no
 * other. A second process at the same work does no harm: each asks again under the lock.
 */
export async function giveReminders(now: Date): Promise<Reminded> {
  const reminded: Reminded = { given: 0, errors: [] }
  for (;;) {
    const due = await read((tx) => patientsToRemind(tx, now, ROUND))
    for (const { patientId } of due) {
      try {
        if (await write((tx) => remind(tx, patientId, now))) reminded.given += 1
      } catch (error) {
        reminded.errors.push({ patientId, error })
        await write((tx) => setNextReminder(tx, patientId, new Date(now.getTime() + AGAIN_MS)))
      }
    }
    if (due.length < ROUND) return reminded
  }
}

const KEY = Symbol.for('outflow.reminders')
const shared = globalThis as typeof globalThis & { [KEY]?: NodeJS.Timeout }

/** Gives reminders every few seconds in this process, started once. `onError` is told of each patient who could not be reminded, and of a round that failed (null). */
export function startReminders(onError: (error: unknown, patientId: string | null) => void): void {
  if (shared[KEY]) return
  let running = false
  shared[KEY] = setInterval(async () => {
    if (running) return
    running = true
    try {
      const { errors } = await giveReminders(clock())
      for (const { error, patientId } of errors) onError(error, patientId)
    } catch (error) {
      onError(error, null)
    } finally {
      running = false
    }
  }, EVERY_MS)
  shared[KEY].unref()
}
