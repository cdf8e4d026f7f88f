// The time for the commands that run before anything is installed and so cannot import lib/clock.ts.

/** Seconds since the call, to one decimal. */
export function stopwatch() {
  const startedMs = Date.now()
  return () => Math.round((Date.now() - startedMs) / 100) / 10
}

/**
 * The date where it is earliest on earth, as 2026-03-02: what ended before it has ended everywhere, in
 * whatever zone its date was meant.
 */
export function earliestToday() {
  const zoneFarthestBehindMs = 12 * 3_600_000
  return new Date(Date.now() - zoneFarthestBehindMs).toISOString().slice(0, 10)
}
