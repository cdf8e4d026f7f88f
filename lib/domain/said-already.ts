import type { Flag } from './flag.ts'

type Said = Pick<Flag, 'code' | 'drain' | 'state'>

/**
 * What needs a sentence of its own, where one finding tells of others too: each thing is said once. What
 * `blocked-and-infected` contains is the fever of the patient, and what its own drain no longer does; and only for as
 * long as it holds itself.
 */
export function notSaidAlready<T extends Said>(standing: readonly T[]): T[] {
  const whole = standing.filter(({ code, state }) => code === 'blocked-and-infected' && state === 'open')
  return standing.filter(({ code, drain }) => {
    if (code === 'infection-signs') return drain !== null || whole.length === 0
    if (code !== 'output-stopped' && code !== 'output-decline') return true
    return !whole.some((one) => one.drain === drain)
  })
}
