import { now as clock } from '../clock.ts'
import { type DowntimeFault, writeDowntime } from './downtime.ts'
import type { PaperSize } from './print/paper.ts'

const HOUR_MS = 3_600_000
/** Between two looks whether the hour has turned; a write that failed is tried again at each. */
const EVERY_MS = 60_000

type State = {
  handle: NodeJS.Timeout | null
  running: boolean
  /** The hour that was last written whole, counted since 1970. */
  hour: number | null
  /** Since when it fails, by clinic; `*` is the folder itself. */
  failing: Map<string, { since: number; why: string }>
}

const KEY = Symbol.for('outflow.downtime')
const shared = globalThis as typeof globalThis & { [KEY]?: State }

function state(): State {
  shared[KEY] ??= { handle: null, running: false, hour: null, failing: new Map() }
  return shared[KEY]
}

/**
 * Writes the lists for a downtime at once and then each hour, until what it returns is called. Without a folder it does
 * nothing: no list leaves the house unless somebody has said where to.
 */
export function startDowntime(
  { folder, size }: { folder: string | null; size: PaperSize },
  onFault: (fault: DowntimeFault) => void,
): () => void {
  const own = state()
  if (!folder || own.handle) return stopDowntime
  const tick = async () => {
    const now = clock()
    const hour = Math.floor(now.getTime() / HOUR_MS)
    if (own.running || own.hour === hour) return
    own.running = true
    try {
      const faults = await writeDowntime(folder, size, now)
      note(own, faults, now.getTime())
      for (const fault of faults) onFault(fault)
      if (faults.length === 0) own.hour = hour
    } finally {
      own.running = false
    }
  }
  own.handle = setInterval(tick, EVERY_MS)
  own.handle.unref()
  void tick()
  return stopDowntime
}

function note(own: State, faults: readonly DowntimeFault[], nowMs: number): void {
  const before = own.failing
  own.failing = new Map(
    faults.map(({ clinicId, error }) => {
      const key = clinicId ?? '*'
      const code = error instanceof Error && 'code' in error ? String(error.code) : null
      const why = code ?? (error instanceof Error ? error.message : String(error))
      return [key, { since: before.get(key)?.since ?? nowMs, why }]
    }),
  )
}

function stopDowntime(): void {
  const own = state()
  if (own.handle) clearInterval(own.handle)
  Object.assign(own, { handle: null, hour: null, failing: new Map() })
}

/** Since when and why a clinic's list for a downtime cannot be written; null while it can, or none is wanted. */
export function downtimeTrouble(clinicId: string): { sinceMs: number; why: string } | null {
  const { failing } = state()
  const found = failing.get('*') ?? failing.get(clinicId)
  return found ? { sinceMs: found.since, why: found.why } : null
}
