import { now as clock } from '../clock.ts'
import { checkHours, stepDue } from './escalate.ts'
import { beat, endBeat } from './pulse.ts'
import { ESCALATIONS } from './troubles.ts'

const EVERY_MS = 2_000
/** Between two looks at which clinics have closed or opened, in rounds. */
const CHECK_EVERY = 5
const STUCK_MS = 60_000

type Timer = { handle: NodeJS.Timeout | null; running: boolean; rounds: number }
const KEY = Symbol.for('outflow.escalations')
const shared = globalThis as typeof globalThis & { [KEY]?: Timer }

/**
 * Tells the person on call, every few seconds in this process, started once; gives what stops it. `onError` is told
 * of each escalation whose step failed (by id) and of a round that failed as a whole (null).
 */
export function startEscalations(
  lastResort: string | null,
  onError: (error: unknown, escalationId: string | null) => void,
): () => void {
  shared[KEY] ??= { handle: null, running: false, rounds: 0 }
  const state = shared[KEY]
  if (state.handle) return stopEscalations
  const tick = async () => {
    if (state.running) return
    state.running = true
    try {
      const now = clock()
      const checked = state.rounds % CHECK_EVERY === 0 ? await checkHours(now) : null
      state.rounds += 1
      const stepped = await stepDue(now, lastResort)
      for (const { escalationId, error } of [...(checked?.errors ?? []), ...stepped.errors])
        onError(error, escalationId)
      beat(ESCALATIONS, STUCK_MS)
    } catch (error) {
      onError(error, null)
    } finally {
      state.running = false
    }
  }
  beat(ESCALATIONS, STUCK_MS)
  state.handle = setInterval(tick, EVERY_MS)
  state.handle.unref()
  void tick()
  return stopEscalations
}

function stopEscalations(): void {
  if (shared[KEY]?.handle) clearInterval(shared[KEY].handle)
  delete shared[KEY]
  endBeat(ESCALATIONS)
}
