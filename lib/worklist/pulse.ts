type Beat = { late: boolean; timer: NodeJS.Timeout | null }

const KEY = Symbol.for('outflow.pulses')
const shared = globalThis as typeof globalThis & { [KEY]?: Map<string, Beat> }

function beatOf(name: string): Beat {
  shared[KEY] ??= new Map()
  const known = shared[KEY].get(name)
  if (known) return known
  const beat: Beat = { late: false, timer: null }
  shared[KEY].set(name, beat)
  return beat
}

/**
 * Says that something that runs again and again has run, and is late if that is not said again in time. Told by
 * a timer rather than by the clock, which a test may move.
 */
export function beat(name: string, lateMs: number): void {
  const state = beatOf(name)
  if (state.timer) clearTimeout(state.timer)
  state.late = false
  state.timer = setTimeout(() => {
    state.late = true
  }, lateMs)
  state.timer.unref()
}

/** Whether it should have run again long ago. What was never begun here is not late. */
export const isLate = (name: string): boolean => beatOf(name).late

/** It was stopped on purpose: nothing is waited for. */
export function endBeat(name: string): void {
  const { timer } = beatOf(name)
  if (timer) clearTimeout(timer)
  shared[KEY]?.delete(name)
}
