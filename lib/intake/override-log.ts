import type { OverrideLog } from '../store/care-plans.ts'

const NAMES = ['declineRatio', 'stoppedHours', 'feverC', 'severePain'] as const

type Wanted = { [name in (typeof NAMES)[number]]?: number | null }

/** A drain's own thresholds with a change put in: who, when and why beside each; null takes one back. */
export function overrideLog(
  before: OverrideLog | null,
  wanted: Wanted | undefined,
  set: { by: string; at: string; why: string },
): OverrideLog | null {
  const log: OverrideLog = { ...before }
  for (const name of NAMES) {
    const value = wanted?.[name]
    if (value === null) delete log[name]
    else if (value !== undefined) log[name] = { value, ...set }
  }
  return Object.keys(log).length > 0 ? log : null
}
