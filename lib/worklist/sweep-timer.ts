import { now } from '../clock.ts'
import { read } from '../store/index.ts'
import { troubledCount } from '../store/patient-states.ts'
import { beat, endBeat } from './pulse.ts'
import { sweep } from './sweep.ts'

/** Between two looks at what is due, and after how long without one the sweep counts as stuck. */
const EVERY_MS = 3_000
const STUCK_MS = 60_000
/** The name under which the watchdog asks whether it runs. */
export const SWEEP = 'sweep'

type Timer = {
  handle: NodeJS.Timeout | null
  stuck: NodeJS.Timeout | null
  alive: boolean
  running: boolean
  lastAt: string | null
  lastError: string | null
}

const KEY = Symbol.for('outflow.sweep')
const shared = globalThis as typeof globalThis & { [KEY]?: Timer }

function timer(): Timer {
  shared[KEY] ??= { handle: null, stuck: null, alive: false, running: false, lastAt: null, lastError: null }
  return shared[KEY]
}

/**
 * Starts the sweep of this process, once; gives what stops it. `onError` is told of each patient that could not
 * be assessed (by id) and of a sweep that failed as a whole (null).
 */
export function startSweep(
  onError: (error: unknown, patientId: string | null) => void = () => undefined,
): () => void {
  const state = timer()
  if (state.handle) return stopSweep
  const tick = async () => {
    if (state.running) return
    state.running = true
    try {
      const at = now()
      const { errors } = await sweep(at)
      for (const { error, patientId } of errors) onError(error, patientId)
      state.lastAt = at.toISOString()
      state.lastError = null
      state.alive = true
      watch(state)
      beat(SWEEP, STUCK_MS)
    } catch (error) {
      state.lastError = error instanceof Error ? error.message : String(error)
      onError(error, null)
    } finally {
      state.running = false
    }
  }
  beat(SWEEP, STUCK_MS)
  state.handle = setInterval(tick, EVERY_MS)
  state.handle.unref()
  void tick()
  return stopSweep
}

/** Told by a timer rather than by the clock, which a test may move. */
function watch(state: Timer): void {
  if (state.stuck) clearTimeout(state.stuck)
  state.stuck = setTimeout(() => {
    state.alive = false
  }, STUCK_MS)
  state.stuck.unref()
}

function stopSweep(): void {
  const state = timer()
  if (state.handle) clearInterval(state.handle)
  if (state.stuck) clearTimeout(state.stuck)
  Object.assign(state, { handle: null, stuck: null, alive: false })
  endBeat(SWEEP)
}

export type SweepHealth = {
  alive: boolean
  lastAt: string | null
  lastError: string | null
  troubled: number
}

/** Whether the sweep of this process runs, when it last looked, and how many patients could not be read or assessed. */
export async function sweepHealth(): Promise<SweepHealth> {
  const { alive, lastAt, lastError } = timer()
  return { alive, lastAt, lastError, troubled: await read(troubledCount) }
}
